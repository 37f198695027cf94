/**
 * Adjectives and the organs they speak of, proposed when nothing matches what was
 * typed. Common practice in medical English; the pairs were written for this app.
 */
import { foldWord } from '../model/fold-name';

const pairs: readonly (readonly [string, string])[] = [
  ['hepatic', 'liver'],
  ['renal', 'kidney'],
  ['cardiac', 'heart'],
  ['pulmonary', 'lung'],
  ['cerebral', 'brain'],
  ['gastric', 'stomach'],
  ['splenic', 'spleen'],
  ['cutaneous', 'skin'],
  ['dermal', 'skin'],
  ['ocular', 'eye'],
  ['aural', 'ear'],
  ['otic', 'ear'],
  ['nasal', 'nose'],
  ['oral', 'mouth'],
  ['buccal', 'cheek'],
  ['lingual', 'tongue'],
  ['dental', 'tooth'],
  ['vesical', 'bladder'],
  ['uterine', 'uterus'],
  ['ovarian', 'ovary'],
  ['testicular', 'testis'],
  ['vascular', 'vessel'],
  ['venous', 'vein'],
  ['arterial', 'artery'],
  ['osseous', 'bone'],
  ['skeletal', 'bone'],
  ['muscular', 'muscle'],
  ['neural', 'nerve'],
  ['spinal', 'spine'],
  ['costal', 'rib'],
  ['cranial', 'skull'],
  ['thoracic', 'chest'],
  ['abdominal', 'belly'],
  ['enteric', 'bowel'],
  ['intestinal', 'bowel'],
  ['colonic', 'colon'],
  ['biliary', 'bile'],
  ['haemic', 'blood'],
  ['thymic', 'thymus'],
  ['adrenal', 'suprarenal'],
  ['mammary', 'breast'],
  ['ocular', 'vision'],
  ['febrile', 'fever'],
  ['pyrexia', 'fever'],
  ['hypertension', 'blood pressure'],
];

const byWord = new Map<string, string[]>();
for (const [one, other] of pairs) {
  for (const [from, to] of [
    [one, other],
    [other, one],
  ] as const) {
    const list = byWord.get(foldWord(from));
    if (list) list.push(to);
    else byWord.set(foldWord(from), [to]);
  }
}

/** Words that speak of the same organ; empty where none is known. */
export function otherWordsFor(word: string): readonly string[] {
  return byWord.get(foldWord(word)) ?? [];
}
