/**
 * Questions to the demo's records, with what a person who knows the records would want back.
 *
 * Written by hand from the list of the records (concepts, notes, lines, readings, missing pieces),
 * before any search was run on them and without the output of one. Two sorts: *known*, where the
 * candidate remembers one record and wants it back; *topic*, where everything on a matter is wanted.
 * Typed as people type: half words, other spellings, other names, slips of the finger.
 *
 * A line: the question, the sort, then records with a grade: 3 what was sought, 2 answers the
 * question, 1 touches it. c: concept, n: note, l: sheet line, r: reading (each by the end of its
 * id), p: every miss whose missing piece begins so.
 */
export const judgedQueries = `
# a record remembered, in its own words
why the bicarbonate pair works | known | n:buffer-again=3; l:buffer=1; c:bicarbonate-buffer=1
closed bottle | known | p:Closed bottle=3; n:buffer-again=2
how i read a gas | known | n:gas-steps=3; l:gas-order=2; c:acid-base-approach=1
anion gap albumin | known | n:gap=3; l:gap=3; c:anion-gap=2
urine answers | known | n:urine=3
half-life four things | known | n:half=3; c:half-life-steady-state=1
when there is no half-life | known | n:zero=3; p:Phenytoin has no half-life=2; l:order=1
telling II from III | known | n:types=3
blood in the urine with casts | known | n:kidney-blood=3
what the lupus antibodies say | known | n:lupus=3; c:sle-connective=1
same test fails ashore | known | n:predict=3
odds risks number to treat | known | n:odds=3; l:risk=2; c:number-needed-to-treat=2; c:relative-risk-odds=2
glycogen who has which key | known | n:glycogen=3
hours since the meal | known | n:fasting=3
nerves of the eye | known | n:nerves-eye=3; c:cranial-nerves=1
forehead or no forehead | known | n:facial=3; p:Forehead spared means=2
dry list | known | n:dry=3; l:dry=2
wet list | known | n:wet=3
cascade from the two tests | known | n:clotting=3; l:clot=2
five ways to low oxygen | known | n:hypoxaemia=3; l:hypox=2; c:hypoxaemia-causes=2
at altitude | known | n:altitude=3; c:altitude-response=3; p:At altitude he spills=3
potassium where is it | known | n:potassium=3; c:potassium-balance=1
low sodium is about water | known | n:sodium=3
standing and squatting | known | n:murmurs=3
capacity is for one decision | known | n:consent=3; c:decision-capacity=2
how i sit the block | known | n:process=3
earned its place on the sheet | known | n:sheet=3
two by two | known | l:two=3; r:two-by-two-tables-with-a-changing-prevalence=2; p:Draw the two-by-two=2; n:sheet=1
horse serum | known | p:One to two weeks after the horse serum=3
farmer's lung | known | p:Farmer's lung mixes=3
brown plugs | known | p:Asthma, brown plugs=3
starry sky | known | p:8;14 is Burkitt=3
red jelly | known | p:Toddler, colic, red jelly=3
kinky hair | known | p:Kinky hair is Menkes=3
no rugby | known | p:Mononucleosis: no rugby=3
crumpled paper cells | known | p:Gaucher: crumpled paper=3
wet wobbly wacky | known | p:Wet, wobbly, wacky=3
hot tub rash | known | p:Hot tub rash=3
clozapine drools | known | p:Clozapine is the odd one=3
bladder up to the navel | known | p:Amitriptyline for sleep=3
eggshell nodes | known | p:Silica top, eggshell=3
osler nodes janeway | known | p:Roth spots, Osler=3; c:endocarditis=2
"wire loop" | known | p:Wire loop is complexes=3
mass on the stalk prolactin | known | p:Any mass on the stalk=3
jaw deviates | known | p:Jaw deviates TO=3
alkaline tide | known | p:Vomiting loses H, so=3
venous bicarbonate for the arterial | known | p:I took the venous bicarbonate=3
amiodarone hides in fat | known | p:Amiodarone stays for weeks=3
naloxone shorter | known | p:Naloxone is shorter=3
norfluoxetine | known | p:Fluoxetine needs about five=3
glycogenin primer | known | p:Glycogenin is the primer=3
"intrinsic factor" | known | p:Intrinsic factor from=3; p:Parietal cell also makes intrinsic=3; c:gastric-secretion=2
posterior communicating aneurysm | known | p:III palsy with a blown pupil=3
double it finasteride | known | p:Finasteride halves PSA=3
vancomycin flush | known | p:Vancomycin flush is speed=3
two i's in amide names | known | p:Two i's in amide=3
poster quoted the relative | known | p:The poster quoted=3; p:4 % to 3 %=1
motion sickness patch | known | p:Scopolamine patch=3
strongyloides before steroids | known | p:Ivermectin for Strongyloides=3
# half typed, as it is being typed
bicarbonate buf | known | c:bicarbonate-buffer=3; n:buffer-again=1
haemoglobin str | known | c:haemoglobin-structure=3
type iii hyp | known | c:type-iii-hypersensitivity=3; l:hyper=1
predictive val | known | c:predictive-values=3; r:tests-sensitivity-to-predictive-value=2
number needed to t | known | c:number-needed-to-treat=3
loop of hen | known | c:loop-of-henle=3
coagulation cas | known | c:coagulation-cascade=3; n:clotting=1
metabolic alk | known | c:metabolic-alkalosis=3; r:metabolic-alkalosis=3; l:alkalosis=3; n:urine=1
cranial ner | known | c:cranial-nerves=3; l:cn=3; r:the-twelve-cranial-nerves=3; r:cranial-nerves-bedside-signs=3
alveolar g | known | c:alveolar-gas-equation=3; l:alveolar=3; r:ventilation-dead-space-and-alveolar-gas=2; n:hypoxaemia=1
muscarinic antag | known | c:muscarinic-antagonists=3; n:dry=1; l:dry=1
glycogen stor | known | c:glycogen-storage-disease=3; l:glycogen=2; r:glycogen-and-its-diseases=2
pharyngeal ap | known | c:pharyngeal-apparatus=3
sensitivity and spec | known | c:test-sensitivity-specificity=3; n:predict=1
immune complexes form | known | r:immune-complexes-form-lodge-inflame=3
# other spellings
edema mechanisms | known | c:oedema-mechanisms=3
anemia approach | known | c:anaemia-approach=3; r:anaemias=2
esophageal disease | known | c:oesophageal-disease=3
hemoglobin carries | topic | c:oxygen-carriage=3; c:haemoglobin-structure=3; r:carriage-of-oxygen-and-carbon-dioxide=2; l:o2-content=2
leukemia | known | c:leukaemias=3; p:9;22 belongs=2
hyperkalemia | known | c:hyperkalaemia=3; p:No insulin, beta block=2; n:potassium=1
tumor markers | known | c:tumour-markers=3; c:tumour-immunology=1
fetal circulation | known | c:fetal-circulation=3; p:First breath: lung=1; r:the-first-breath=2
sexuality aging | known | c:sexuality-ageing=3; c:ageing-frailty=1
secretory diarrhea | topic | c:water-electrolyte-absorption=3; l:urine-gap=1; p:Lactose left in the gut=1
estrogen contraception | known | c:sex-hormone-drugs=3
randomized trials | known | c:randomised-trials=3
defense mechanisms | known | c:defence-mechanisms=3; p:Reaction formation=2
guillain barre | known | c:demyelination=3
ischemic heart disease | known | c:ischaemic-heart-disease=3; r:vessels-and-the-ischaemic-heart=2; c:mi-complications=1
sulfate and phosphate | topic | n:gap=3; c:phosphate-balance=2; r:calcium-phosphate-and-vitamin-d=1; l:calcium=1
β-lactams | known | c:beta-lactams=3
beta blockers | topic | c:adrenergic-antagonists=3; p:Beta blocker hides the tremor=3; p:Reflex tachycardia, so beta=2; p:Esmolol minutes=2; p:Long type 1 loses glucagon=2; r:autonomic-drugs-adrenergic=2
betablocker low sugar | known | p:Beta blocker hides the tremor=3; p:Long type 1 loses glucagon=2
a-a gradient | known | c:alveolar-gas-equation=3
α1 agonist | known | p:Phenylephrine is pure alpha-1=3; c:adrenergic-agonists=2; p:Adrenaline in liver works=1
HCO3- | topic | l:buffer=3; l:winter=3; l:alkalosis=3; l:gap=3; l:delta=3
CO₂ carriage | known | c:co2-carriage=3; r:carriage-of-oxygen-and-carbon-dioxide=2
Na+/K+ pump | known | c:sodium-potassium-pump=3; r:the-sodium-pump-and-what-lives-on-its-gradient=2
Fe3+ | known | p:Fe3+ does not bind=3
h2o retention adh | topic | c:adh-water-balance=3; c:hyponatraemia=2; p:Lithium: ADH=2; n:sodium=2; r:water-balance-and-its-disorders=2
vertebra | topic | c:vertebral-column=3; r:the-spine-and-its-discs=1
nuclei of the thalamus hypothalamus | known | c:hypothalamus-appetite=3
bronchus lungs cancer | known | c:lung-cancer=3; r:lung-cancer-and-sarcoid=3; c:airway-lung-anatomy=1
# other names for the same thing
ABG | known | c:acid-base-approach=3
PPV | topic | c:predictive-values=3; l:two=3; l:prev=3; p:Same test, rarer=3; p:PPV is down the column=3; p:Lowering the cut-off=3; p:A better specificity lifts=3; p:Screening clinic to=3; n:predict=2
NNT | known | c:number-needed-to-treat=3; l:risk=2; n:odds=2
MI | topic | c:ischaemic-heart-disease=3; c:mi-complications=3
winter's formula | known | c:respiratory-compensation=3; l:winter=3; p:A fall of bicarbonate of 1=1
henderson hasselbalch | known | c:ph-pka=3; l:buffer=2
von gierke | known | c:glycogen-storage-disease=3; l:glycogen=2; p:Type I: fasting low sugar=3
RTA | topic | c:renal-tubular-acidosis=3; l:rta=3; l:urine-gap=2; p:Type 1: urine pH over=2; p:Proximal: bicarbonate spills=2
serum sickness | topic | c:type-iii-hypersensitivity=3; p:Fever, rash, joint pain and swollen=3; p:Infliximab after a long gap=3; p:Timing: serum sickness=3; p:One to two weeks after the horse=2; p:Cefaclor in a child=2
arthus | topic | c:type-iii-hypersensitivity=2; p:Arthus is local=3; p:Arthus after the tetanus=3
anticholinergic | topic | c:muscarinic-antagonists=3; n:dry=2; l:dry=2; r:hot-dry-and-confused-blocking-muscarinic-receptors=2; p:Delirium on the ward=2; p:First-generation antihistamines=2
acetaminophen | known | c:nsaids-paracetamol=3; c:poisoning-antidotes=2
epinephrine | topic | c:adrenal-medulla=3; c:adrenergic-agonists=2
TB | topic | c:mycobacteria=3; c:tb-drugs=3; p:TB test before=3; p:Silica top, eggshell=2; r:mycobacteria-spirochaetes-and-the-wall-less=1
GERD | known | c:oesophageal-disease=3
heart attack | topic | c:ischaemic-heart-disease=3; c:mi-complications=3
diabetes insipidus | known | c:hypernatraemia=3
von willebrand | known | c:primary-haemostasis=3
PT and aPTT | topic | c:coagulation-cascade=3; l:clot=3; n:clotting=3; p:PT watches VII=3; r:bleeding-times-pt-aptt-and-platelets-read-together=3; p:XIII lack=2; p:Newborn without=1
ANA | topic | c:autoimmunity=3; n:lupus=3
C3 | topic | c:complement=3; p:C3 falls in the blood=3; p:C3 low: post-strep=3; p:Low C3 and C4 belong=3; p:Post-streptococcal kidney=2; p:Subacute endocarditis with=2; n:lupus=2; l:hyper=1
MRSA | known | p:MRSA changed the binding=3
cystic fibrosis deltaF508 | known | c:cystic-fibrosis=3; p:Delta F508=3
# slips of the finger
bicarbonte | topic | c:bicarbonate-buffer=3; n:buffer-again=2
hypersensitvity type III | known | c:type-iii-hypersensitivity=3; n:types=1
aldosteorne | known | c:aldosterone=3
phenytion | topic | p:Phenytoin has no half-life=3; n:zero=2; l:order=2; c:antiepileptics=2
glucneogenesis | known | c:gluconeogenesis=3; r:sugar-to-pyruvate-and-back=1
sarcoidossis | known | c:sarcoidosis=3; p:Beryllium looks like=1
organophoshate | topic | n:wet=3; c:cholinergic-drugs=3; p:Atropine does nothing for=3
acetazolmide altitude | known | n:altitude=3; p:At altitude he spills=3
prevalance | topic | c:disease-frequency=3; l:prev=3; n:predict=2; p:With a prevalence of 1=2; r:two-by-two-tables-with-a-changing-prevalence=2
hypoglycemai | topic | c:glucagon-counterregulation=3
# a matter, with all that was written on it
loading dose renal failure | topic | p:In renal failure the loading=3; n:half=3; p:Loading dose is target level=3; p:Loading dose uses Vd=2; l:doses=2; p:A loading dose fills=1
steady state how long | topic | p:Four to five half-lives=3; p:Time to steady state depends=3; c:half-life-steady-state=3; n:half=3; p:After one half-life of=2; p:Drew the curve=2; l:half-life=2; r:climbing-to-a-plateau-half-life-in-five-steps=2
zero order elimination | topic | c:elimination-order=3; l:order=3; n:zero=3; p:Phenytoin has no half-life=2
granular staining complexes | topic | p:Granular staining means=3; l:stain=3; n:types=2; p:Lumpy-bumpy=2; l:hyper=1
low complement nephritis | topic | l:lowc=3; p:C3 low: post-strep=3; n:kidney-blood=3; p:Post-streptococcal kidney=2; p:Subacute endocarditis with=2
post-strep | topic | p:Post-streptococcal kidney=3; p:Hump on the epithelial=3; p:C3 low: post-strep=2; p:Days after a cold=2; p:Lumpy-bumpy=2; l:lowc=2; l:stain=2; c:post-streptococcal=3; n:kidney-blood=2
atropine | topic | c:muscarinic-antagonists=3; n:dry=2; n:wet=2; p:Low-dose atropine=3; p:Atropine does nothing for=3; p:First-generation antihistamines=2; p:Vagus acts by acetylcholine=1
false positives rare disease | topic | n:predict=3; p:With a prevalence of 1=3; p:If nobody has it every=3; p:HIV test in blood donors=2; p:PSA in a young man=2; p:Added a second box=2
altitude bicarbonate | topic | n:altitude=3; p:At altitude he spills=3; c:altitude-response=2
pregnancy bicarbonate | topic | p:Pregnant: bicarbonate of 20=3; p:Normal late pregnancy=3
vitamin k factor vii | topic | p:Factor VII has the shortest=3; n:clotting=2; l:clot=2; c:vitamin-k=3; p:Newborn without=2; p:Antibiotics for a month=2; p:Factor V is not vitamin=2
muscle glycogen | topic | n:glycogen=3; p:Muscle lacks glucose=3; p:Muscle has no glucose=3; c:glycogen-metabolism=2; p:Calcium alone can activate=2; p:Muscle phosphorylase wakes=2; r:glycogen-in-liver-and-muscle=3; l:glycogen-switch=1
facial nerve | topic | n:facial=3; c:cranial-nerves=3; p:Forehead spared means=3; p:Parotid lump with=3; p:Hyperacusis means=3; p:Taste front two thirds=2
sixth nerve | topic | p:Sixth nerve palsy=3; p:Cavernous sinus: VI=2; n:nerves-eye=2; l:cn=1
cavernous sinus | topic | p:Cavernous sinus: VI goes=3; n:nerves-eye=3; c:cranial-nerves=2
jugular foramen | topic | p:Jugular foramen takes=3; l:holes=3
proton pump inhibitor | topic | c:acid-suppression=3; p:Proton pump inhibitor before=3; p:Long without acid=3; p:H2 blockers wear off=2; r:gut-drugs=1
hernia | topic | c:abdominal-wall-hernia=3; p:Indirect lateral=3; p:Femoral: below=3; p:Adhesions first=2; p:Processus vaginalis=2; c:diaphragm-development=1
suicide | topic | c:suicide-risk=3; p:A plan and the means=2; p:The strongest marker is=2; p:First weeks after leaving=2
potassium leaves the cell | topic | p:Potassium leaves the cell=3; n:potassium=2; p:No insulin, beta block=2; c:potassium-balance=2; c:hyperkalaemia=2
lithium | topic | c:mood-stabilisers=3; p:Lithium: ADH=3
warfarin | topic | c:anticoagulants=3; p:Heparin gone in a few=3; p:Warfarin effect lags=3; p:Factor VII has the shortest=2; n:clotting=2; l:clot=2; c:pharmacogenetics=1
lupus | topic | c:sle-connective=3; n:lupus=3; p:Lupus nephritis is complexes=3; p:Anti-dsDNA follows=2; p:Lupus anticoagulant lengthens=3; p:Early complement lack=2; p:C3 low: post-strep=1; l:lowc=1; l:stain=1
cryoglobulins | topic | p:Mixed cryoglobulins=3; p:ESR high, C4 low=3; l:lowc=2; n:kidney-blood=1; c:vasculitis=1
compensation expected pco2 | topic | l:winter=3; l:alkalosis=3; n:gas-steps=3; c:respiratory-compensation=3; r:compensation-what-is-expected-and-what-is-not=3; p:Rise of bicarbonate of 1=2; p:A fall of bicarbonate of 1=2; p:PCO2 rises about 0.7=2; l:resp-comp=2
shunt oxygen | topic | p:Oxygen hardly helps since=3; n:hypoxaemia=3; c:ventilation-perfusion=2; c:hypoxaemia-causes=2; l:hypox=2
urine chloride vomiting | topic | n:urine=3; c:metabolic-alkalosis=2; p:Vomiting loses H, so=2
hepatitis b antigen | topic | l:hbv=3; c:hepatitis-viruses=3; p:Polyarteritis can ride=2
standard error confidence | known | c:confidence-intervals=3
withdrawal half-life | topic | p:Short half-life and a clean stop=3; p:Long half-life covers its own=3; c:tolerance-dependence=2
enzyme inducer | topic | p:Enzyme inducer started=3; p:Stopping the inducer=3; c:drug-metabolism=3; r:metabolism-and-interactions=2
second test confirms | topic | p:Confirming a positive=3; p:HIV test in blood donors=2
sleep before a block | known | n:process=3
-lupus granular | topic | p:Granular staining means=3; l:hyper=2; n:types=2
low bicarbonate not acidosis | topic | p:Low bicarbonate alone does not=3; p:Hyperventilate him and both=2; p:Pregnant: bicarbonate of 20=3; c:respiratory-alkalosis=1
capillary starling | topic | l:starling=3; c:starling-forces=3; r:capillaries-lymph-and-the-balance-of-pressures=3; c:oedema-mechanisms=1
half the radius sixteen times | known | l:poiseuille=3; c:pressure-flow-resistance=2
prerenal fena | topic | l:fena=3; c:acute-kidney-injury=3; n:urine=2
shock filling | topic | l:shock=3; c:shock=3; r:swelling-clot-and-shock=2
pv loop | known | c:pressure-volume-loops=3; l:pv=3; r:pressurevolume-loops-step-by-step=3
likelihood ratio | topic | c:likelihood-ratios=3; l:lr=3
type I error alpha | topic | l:errors=3; c:hypothesis-testing=3; r:spread-intervals-and-tests=1
`;
