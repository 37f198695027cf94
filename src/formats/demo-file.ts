/**
 * The demo's file: blocks and items that are dated backwards from the day the
 * demo is opened, so that it always ends yesterday.
 */
import * as v from 'valibot';
import { blockSchema, itemSchema } from '../model/log';
import { checkWith, type Checked } from '../model/records';
import { localDaySchema, type LocalDay } from '../model/time';

const blockContent = v.omit(blockSchema, ['stamp', 'day', 'startedAt']).entries;
const itemContent = v.omit(itemSchema, ['stamp']).entries;

const demoFileSchema = v.object({
  format: v.literal('hypocentre-demo', 'this is not a demo file of Hypocentre'),
  version: v.literal(1, 'this version of Hypocentre reads demo files of version 1'),
  blocks: v.array(
    v.object({
      ...blockContent,
      daysBefore: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(3_650)),
    }),
  ),
  items: v.array(v.object(itemContent)),
});

type DemoFile = v.InferOutput<typeof demoFileSchema>;

export interface DemoContent {
  readonly blocks: readonly (Omit<DemoFile['blocks'][number], 'daysBefore'> & { day: LocalDay })[];
  readonly items: DemoFile['items'];
}

/**
 * Checks unknown JSON into the demo's blocks and items.
 *
 * @param today the day on which `daysBefore: 0` falls
 */
export function parseDemoFile(input: unknown, today: LocalDay): Checked<DemoContent> {
  const checked = checkWith(demoFileSchema, input);
  if (checked.kind === 'rejected') return checked;
  const blocks = checked.value.blocks.map(({ daysBefore, ...block }) => ({
    ...block,
    day: v.parse(localDaySchema, today - daysBefore),
  }));
  return { kind: 'ok', value: { blocks, items: checked.value.items } };
}
