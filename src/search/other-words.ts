/**
 * Adjectives and the parts of the body they speak of, proposed when nothing matches what
 * was typed. Common practice in medical English; the table was written for this app, and
 * `tests/outside/search/organ-adjectives.test.ts` holds it against an open lexical database.
 */
import { foldWord } from '../model/fold-name';

/** A part under its plain and its learned names, then what is said of it. */
const parts: readonly (readonly [names: string, adjectives: string])[] = [
  ['liver', 'hepatic'],
  ['kidney', 'renal nephritic nephric'],
  ['heart', 'cardiac'],
  ['lung', 'pulmonary pulmonic pneumonic'],
  ['brain, cerebrum', 'cerebral encephalic'],
  ['skull, cranium', 'cranial'],
  ['head', 'cephalic'],
  ['face', 'facial'],
  ['forehead', 'frontal'],
  ['temple', 'temporal'],
  ['cheek', 'buccal malar zygomatic'],
  ['chin', 'mental genial'],
  ['jaw, mandible', 'mandibular maxillary gnathic'],
  ['mouth', 'oral stomatal'],
  ['lip', 'labial'],
  ['gum, gingiva', 'gingival'],
  ['tooth', 'dental'],
  ['tongue', 'lingual glossal sublingual'],
  ['palate', 'palatal palatine'],
  ['throat, pharynx', 'pharyngeal guttural faucal'],
  ['voice box, larynx', 'laryngeal glottic'],
  ['windpipe, trachea', 'tracheal'],
  ['nose', 'nasal rhinal perinasal paranasal'],
  ['ear', 'aural otic auricular'],
  ['eardrum, tympanum', 'tympanic'],
  ['eye', 'ocular ophthalmic optic optical'],
  ['eyelid', 'palpebral ciliary'],
  ['tear, tears', 'lacrimal lachrymal lachrymatory'],
  ['neck', 'cervical jugular nuchal'],
  ['cervix', 'cervical'],
  ['chest, thorax', 'thoracic pectoral'],
  ['breast, mamma', 'mammary'],
  ['nipple', 'mastoid papillary areolar'],
  ['milk', 'lacteal lactic'],
  ['rib', 'costal intercostal'],
  ['breastbone, sternum', 'sternal'],
  ['collarbone, clavicle', 'clavicular subclavian'],
  ['shoulder blade, scapula', 'scapular'],
  ['diaphragm', 'phrenic'],
  ['armpit, axilla', 'axillary'],
  ['arm', 'brachial'],
  ['elbow', 'cubital antecubital ulnar'],
  ['wrist, carpus', 'carpal'],
  ['hand', 'manual chiral'],
  ['palm', 'palmar volar thenar'],
  ['finger, digit', 'digital phalangeal'],
  ['nail', 'ungual'],
  ['belly, abdomen', 'abdominal coeliac ventral'],
  ['navel, umbilicus', 'umbilical'],
  ['groin', 'inguinal'],
  ['stomach', 'gastric stomachic'],
  ['gullet, oesophagus', 'oesophageal'],
  ['gut, bowel, intestine', 'enteric enteral intestinal alvine'],
  ['colon', 'colonic colic'],
  ['spleen', 'splenic lienal splenetic'],
  ['gallbladder', 'cystic biliary'],
  ['bile', 'biliary bilious choleretic'],
  ['urine', 'urinary'],
  ['bladder', 'vesical cystic'],
  ['womb, uterus', 'uterine'],
  ['ovary', 'ovarian'],
  ['egg, ovum', 'ovular'],
  ['testis, testicle', 'testicular orchitic'],
  ['semen, sperm', 'seminal spermatic'],
  ['buttock', 'gluteal natal'],
  ['hip', 'coxal sciatic'],
  ['loin, flank', 'lumbar'],
  ['back', 'dorsal'],
  ['spine', 'spinal vertebral rachial'],
  ['spinal cord', 'myelic myeloid medullary'],
  ['tailbone, coccyx', 'coccygeal'],
  ['thigh', 'femoral crural'],
  ['knee', 'popliteal genicular'],
  ['kneecap, patella', 'patellar'],
  ['shin, tibia', 'tibial'],
  ['fibula', 'peroneal fibular'],
  ['calf', 'sural'],
  ['ankle', 'tarsal malleolar'],
  ['heel', 'calcaneal'],
  ['foot', 'pedal'],
  ['sole', 'plantar volar'],
  ['skin', 'cutaneous dermal cutaneal intradermal hypodermic integumentary percutaneous'],
  ['hair', 'pilar capillary crinal'],
  ['sweat', 'hidrotic sudoriferous'],
  ['fat', 'adipose lipid'],
  ['muscle', 'muscular myoid intramuscular'],
  ['tendon, sinew', 'tendinous'],
  ['joint', 'articular arthral'],
  ['bone', 'osseous osteal skeletal ossiferous'],
  ['marrow, bone marrow', 'medullary myeloid'],
  ['skeleton', 'skeletal'],
  ['nerve', 'neural nervous'],
  ['vessel, blood vessel', 'vascular'],
  ['vein', 'venous phlebitic endovenous'],
  ['artery', 'arterial'],
  ['blood', 'haemic haematic haemal sanguineous'],
  ['lymph', 'lymphatic lymphoid'],
  ['thymus', 'thymic'],
  ['adrenal gland, suprarenal', 'adrenal'],
  ['adrenaline', 'adrenergic'],
  ['gland', 'glandular adenoid'],
  ['vision', 'ocular visual'],
  ['hearing', 'auditory acoustic'],
  ['smell', 'olfactory'],
  ['taste', 'gustatory'],
  ['touch', 'tactile'],
  ['fever, pyrexia', 'febrile'],
  ['pus', 'purulent'],
  ['blood pressure', 'hypertension hypotension'],
];

const byWord = new Map<string, string[]>();

function note(from: string, to: string): void {
  const key = foldWord(from);
  const list = byWord.get(key);
  if (list) list.push(to);
  else byWord.set(key, [to]);
}

for (const [names, adjectives] of parts) {
  const plain = names.split(', ');
  for (const adjective of adjectives.split(' ')) {
    for (const name of plain) {
      note(adjective, name);
      note(name, adjective);
    }
  }
  for (const name of plain) for (const other of plain) if (name !== other) note(name, other);
}

/** First halves of compounds, and what they speak of. */
const firstHalves: readonly (readonly [beginning: string, part: string])[] = (
  'cardio heart, gastro stomach, cerebro brain, encephalo brain, hepato liver, nephro kidney, reno kidney, ' +
  'pneumo lung, pulmo lung, musculo muscle, myo muscle, neuro nerve, arterio artery, phlebo vein, osteo bone, ' +
  'entero bowel, colo colon, recto rectum, ano anus, dermato skin, muco mucus, haemato blood, angio vessel, ' +
  'glosso tongue, maxillo jaw, adeno gland, arthro joint, cysto bladder, chole bile, atrio atrium, naso nose, oro mouth'
)
  .split(', ')
  .map((pair) => pair.split(' ') as [string, string])
  .map(([beginning, part]) => [foldWord(`${beginning}q`).slice(0, -1), part]);

/** "Within", "under", "round" and their like, before an adjective. */
const prepositions =
  /^(?:intra|inter|infra|sub|supra|peri|para|trans|per|epi|endo|retro|ante|pre|post|extra|hypo|bi|uni|multi|a)(?=.{4})/;

/** Learned adjectives of some length, to be met at the end of compounds. */
const lastHalves = [...byWord.keys()].filter((word) => word.length >= 5);

/**
 * Words that speak of the same part; both parts of a compound. Empty where none is known.
 *
 * @example
 * otherWordsFor('hepatic'); // ["liver"]
 * otherWordsFor('cardiopulmonary'); // ["lung", "heart"]
 */
export function otherWordsFor(word: string): readonly string[] {
  const folded = foldWord(word);
  const own = byWord.get(folded);
  if (own) return own;
  const others = new Set(byWord.get(folded.replace(prepositions, '')) ?? []);
  for (const last of lastHalves) {
    if (folded.endsWith(last)) for (const other of byWord.get(last)!) others.add(other);
  }
  for (const [beginning, part] of firstHalves) {
    if (folded.startsWith(beginning) && folded.length > beginning.length + 3) others.add(part);
  }
  return [...others];
}
