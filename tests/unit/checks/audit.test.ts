import { describe, expect, it } from 'vitest';
import { auditOutcome } from '../../checks/audit.mjs';

const report = (total: number, vulnerabilities: object = {}) =>
  JSON.stringify({
    auditReportVersion: 2,
    vulnerabilities,
    metadata: { vulnerabilities: { total } },
  });

describe('the look for known weaknesses', () => {
  it('passes a clean report and fails one that names a package', () => {
    expect(auditOutcome(report(0))).toMatchObject({ passed: true });
    const rope = { name: 'rope', range: '<2.0.1', severity: 'high' };
    const found = auditOutcome(report(1, { rope }));
    expect(found.passed).toBe(false);
    expect(found.output).toContain('rope <2.0.1: high');
  });

  it.each(['', 'not JSON', '{}', 'null', '{"message":"405 Method Not Allowed","statusCode":405}'])(
    'says that it was skipped where the registry gives no report: %s',
    (answer) => {
      const outcome = auditOutcome(answer);
      expect(outcome).toMatchObject({ passed: true, showAlways: true });
      expect(outcome.output).toMatch(/^skipped, the registry cannot be asked: \S/);
    },
  );
});
