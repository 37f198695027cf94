/** The days of the demo: sleep, activity, rest and mood, most of them written down. */
import { drawNormal } from './normal';
import type { Random } from './random';
import * as scenario from './scenario';

export interface DemoDay {
  readonly id: string;
  readonly daysBefore: number;
  readonly sleepHours?: number;
  readonly activityMinutes?: number;
  readonly rest: boolean;
  readonly mood?: number;
}

export interface Days {
  /** What was written down, oldest first. */
  readonly logged: readonly DemoDay[];
  /** Hours slept in the night before a day, written down or not. */
  readonly sleptBefore: (daysBefore: number) => number;
}

/** Every seventh day is a day of rest; now and then one is worked through. */
export function simulateDays(random: Random): Days {
  const { meanHours, spreadHours, carriedOver } = scenario.sleep;
  const slept = new Map<number, number>();
  const logged: DemoDay[] = [];
  let offset = 0;
  for (let daysBefore = scenario.weeks * 7; daysBefore >= 1; daysBefore -= 1) {
    offset = carriedOver * offset + spreadHours * drawNormal(random);
    const rest = daysBefore % 7 === 3 && random.uniform() < 0.85;
    const hours = Math.min(10, Math.max(4, meanHours + (rest ? 0.6 : 0) + offset));
    const quarterHours = Math.round(hours * 4) / 4;
    slept.set(daysBefore, quarterHours);

    const active = random.uniform() < (rest ? 0.8 : 0.55);
    const activityMinutes = active ? 5 * Math.round(5 + 8 * random.uniform()) : 0;
    const lift = 0.25 * (hours - meanHours) + (active ? 0.2 : 0) + (rest ? 0.3 : 0);
    const mood = Math.min(5, Math.max(1, Math.round(3.3 + lift + 0.7 * drawNormal(random))));
    const unlogged = random.uniform() < scenario.unloggedShare;
    // Now and then only the sleep was written down.
    const sleepOnly = random.uniform() < 0.12;
    if (unlogged) continue;
    logged.push({
      id: `demo-day-${daysBefore}`,
      daysBefore,
      sleepHours: quarterHours,
      ...(sleepOnly ? {} : { activityMinutes, mood }),
      rest,
    });
  }
  return { logged, sleptBefore: (daysBefore) => slept.get(daysBefore) ?? meanHours };
}
