/** What the invented candidate did beside the blocks: second looks, readings, rehearsals. */
import type { Random } from './random';
import { between, choose, minutesAbout } from './draw';
import type { SeedLine, SeedReading } from './read-seed';
import * as scenario from './scenario';

/** A miss as the second looks need it. */
export interface LookedAt {
  readonly id: string;
  readonly daysBefore: number;
  /** Whether the concept under it was still missing some days before the demo is opened. */
  openOn(daysBefore: number): boolean;
}

/** Second looks by the calendar: each spare day the longest due, at most so many. */
export function simulateLooks(misses: readonly LookedAt[], random: Random): object[] {
  const { gapsDays, mostADay, daysShare } = scenario.looks;
  const waiting = misses.map((miss) => ({
    miss,
    held: 0,
    lookedAt: miss.daysBefore,
    dueOn: miss.daysBefore - gapsDays[0],
  }));
  const looks: object[] = [];
  for (let daysBefore = scenario.weeks * 7; daysBefore >= 1; daysBefore -= 1) {
    if (random.uniform() >= daysShare) continue;
    const due = waiting
      .filter(({ miss, dueOn }) => miss.daysBefore > daysBefore && dueOn >= daysBefore)
      .sort((a, b) => b.dueOn - a.dueOn || (a.miss.id < b.miss.id ? -1 : 1))
      .slice(0, mostADay);
    let clock = minutesAbout(choose([435, 760, 1_250], random), 20, random);
    for (const entry of due) {
      const held =
        random.uniform() <
        chanceToHold(entry.lookedAt - daysBefore, entry.held, entry.miss.openOn(daysBefore));
      looks.push({
        id: `demo-look-${looks.length + 1}`,
        item: entry.miss.id,
        daysBefore,
        minutes: Math.min(1_439, clock),
        outcome: held ? 'had-it' : 'not-yet',
      });
      clock += 1;
      entry.held = held ? entry.held + 1 : 0;
      entry.lookedAt = daysBefore;
      const gapDays = held ? (gapsDays[entry.held] ?? gapsDays.at(-1) ?? 1) : 1;
      entry.dueOn = daysBefore - gapDays;
    }
  }
  return looks;
}

/** The power law of `scenario.looks`: falls with the days since, slower after each look that held. */
export function chanceToHold(days: number, heldBefore: number, gapOpen: boolean): number {
  const { ceiling, scaleDays, decay, slowerEachTime, whileGapIsOpen } = scenario.looks;
  const kept = (1 + days / scaleDays) ** (-decay * slowerEachTime ** heldBefore);
  return ceiling * kept * (gapOpen ? whileGapIsOpen : 1);
}

/**
 * Readings read over the half year: one that mended the mended gap, in its week, and
 * others that leave every open planted gap alone (that is what is still to be read).
 */
export function simulateReadingEvents(readings: readonly SeedReading[], random: Random): object[] {
  const open = new Set(
    scenario.plantedGaps.flatMap((gap) => (gap.healedInWeek === undefined ? [gap.concept] : [])),
  );
  const mended = scenario.plantedGaps.find((gap) => gap.healedInWeek !== undefined);
  const mending = readings.find(({ main }) => main.some((id) => id === mended?.concept));
  if (!mended?.healedInWeek || !mending)
    throw new RangeError('simulateReadingEvents: need a reading on the gap that was mended');

  const others = readings.filter(
    ({ id, main, touched }) =>
      id !== mending.id && ![...main, ...touched].some((concept) => open.has(concept)),
  );
  const chosen = new Set<SeedReading>();
  while (chosen.size < scenario.readingsRead - 1) chosen.add(choose(others, random));

  const days = scenario.weeks * 7;
  const dated = Array.from(chosen, (reading) => ({
    reading,
    daysBefore: 1 + Math.floor(random.uniform() * days),
  }));
  dated.push({ reading: mending, daysBefore: days - 7 * mended.healedInWeek });
  return dated
    .sort((a, b) => b.daysBefore - a.daysBefore)
    .map(({ reading, daysBefore }, index) => ({
      id: `demo-read-${index + 1}`,
      reading: reading.id,
      daysBefore,
      minutes: minutesAbout(20 * 60 + 45, 45, random),
    }));
}

/** Rehearsals of the sheet: quicker and fuller each time, some lines slow to come. */
export function simulateRehearsals(lines: readonly SeedLine[], random: Random): object[] {
  const stubborn = new Map(lines.map(({ id }) => [id, 0.75 + 0.5 * random.uniform()]));
  const last = scenario.rehearsalDays.length - 1;
  return scenario.rehearsalDays.map((daysBefore, index) => {
    const share = index / last;
    // Every third one was typed, the rest written on paper.
    const manner = index % 3 === 2 ? 'typed' : 'paper';
    const chance = between(scenario.rehearsed, share);
    const written = lines.map(({ id, text }) => {
      const whole = random.uniform() < Math.min(0.98, chance * (stubborn.get(id) ?? 1));
      const part = whole ? 1 : random.uniform() < 0.4 ? 0 : 0.3 + 0.5 * random.uniform();
      const words = text.split(' ');
      const kept = words.slice(0, Math.round(part * words.length)).join(' ');
      return { line: id, share: Math.round(part * 100) / 100, kept };
    });
    const words = written.reduce((sum, { kept }) => sum + kept.length / 5, 0);
    const seconds = Math.round(
      (60 * words) / between(scenario.wordsAMinute, share) + 60 * random.uniform(),
    );
    return {
      id: `demo-rehearsal-${index + 1}`,
      daysBefore,
      minutes: minutesAbout(9 * 60 + 30, 30, random),
      seconds,
      manner,
      text:
        manner === 'typed'
          ? written
              .map(({ kept }) => kept)
              .filter((kept) => kept !== '')
              .join('\n')
          : '',
      lines: written.map(({ line, share }) => ({ line, share })),
    };
  });
}
