import { texts } from './texts';
/**
 * Seconds in words: "45 s", "14 min 20 s".
 *
 * @param seconds at least 0; rounded to a whole second
 */
export function timeText(seconds: number): string {
  const whole = Math.round(seconds);
  const minutes = Math.floor(whole / 60);
  const rest = whole % 60;
  if (minutes === 0) return texts.timeWords.s(rest);
  return rest === 0 ? texts.timeWords.min(minutes) : texts.timeWords.minS(minutes, rest);
}

/** A clock's face: "4:05". */
export function clockFace(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}
