/** The words of the screen “roots”, by the file that shows or says them. */
export const texts = {
  besideCounting: {
    countingRewardsWhatIsAsked:
      'Counting rewards what is asked often and believes every label. Tracing also looks at the items you got right, shares each miss between the concepts that could have caused it, and trusts a label only so far.',
    byTracedMisses: 'By traced misses',
    neverNamed: 'never named',
    byCounting: (ordinal: string) => `${ordinal} by counting`,
    byCountingNamedCauses: 'By counting named causes',
    noCauseWasNamed: 'No cause was named so far.',
    byTracing: (ordinal: string) => `${ordinal} by tracing`,
  },
  rootDetail: {
    aConceptNoLonger: 'a concept no longer on the map',
    andMore: (more: number) => `and ${more} more`,
    close: 'Close',
    itIsOutsideTheFilters:
      'It is outside the filters of the list; the numbers here are for all of it.',
    allAboutIt: 'All about it',
    onTheMap: 'On the map',
    whatToRead: 'What to read',
    aLineForTheSheet: 'A line for the sheet',
    also: 'Also',
    belongsTo: 'Belongs to',
    seenIn: 'Seen in',
    restsOn: 'Rests on',
    restsOnIt: 'Rests on it',
    nothingIsTraced: 'Nothing is traced to it so far.',
    evidence: 'Evidence',
    readingTheEvidence: 'Reading the evidence…',
    noMissCountsTowardsIt: 'No miss counts towards it.',
    ofTheChosenPeriod: 'Of the chosen period, with shares weighed over the whole log:',
    missTouches: 'miss touches',
    missesTouch: 'misses touch',
    itTheShareSaysHow: (missesTouch: string) =>
      `${missesTouch} it. The share says how likely it is that a miss came from this concept, whether or not it is a gap; the rest goes to others that could have caused it, or to a slip.`,
    noMissingPieceWritten: 'no missing piece written',
    item: (position: number, day: string) => `Item ${position}, ${day}`,
    topic: (topics: string) => `· topic ${topics}`,
    named: (causes: string) => `· named ${causes}`,
  },
  rootNumbers: {
    itIs: 'It is',
    probablySound: 'probably sound',
    theChanceOfAGap: (gapChance: string) =>
      `: the chance of a gap is ${gapChance}. The misses below touch it, but other concepts or slips explain them better.`,
    about: 'About',
    missesByTodaysWeightCome: (low: string, high: string) =>
      `misses by today’s weight come from here (90% interval ${low} to ${high}).`,
    itIsVeryLikely: 'It is very likely a gap (',
    whetherItIsAGap: 'Whether it is a gap is',
    open: 'open',
    moreItems: (gapChance: string) => `(${gapChance}): more items on it would tell.`,
    itWasAmong: (firstTenChance: string) =>
      `It was among the first ten in ${firstTenChance} of the samples.`,
    in100Items: (exposurePer100: string) =>
      `In 100 items of your recent mix it is called on ${exposurePer100} times, counted by how closely an item leans on it.`,
    ifItIsAGap: (low: string, high: string) =>
      `If it is a gap, it loses you ${low} to ${high} of those (90% interval).`,
    mendingItShouldSaveAbout: 'Mending it should save about',
    missesInThose100: 'misses in those 100.',
    youNeverNamed: 'You never named it as a cause.',
    time: 'time',
    youNamed: (times: string) => `You named it as a cause ${times}.`,
    byOrganSystem: 'By organ system',
  },
  rootRowView: {
    inAllSystems: ' in all systems',
    traced: 'traced',
    gapChance: (over: string) => `gap chance${over}`,
    reach: (reach: string) => `reach ${reach}`,
    neverNamed: 'never named',
    namedByCounting: (named: number, ordinal: string, over: string) =>
      `named ${named} ×, ${ordinal} by counting${over}`,
  },
  rootWhy: {
    aSlip: 'a slip',
    whyIsThisHere: 'Why is this here?',
    missIs: 'miss is',
    missesAre: 'misses are',
    one: 'one',
    youNamed: (one: string | number) => `; you named it in ${one} of them or of those below`,
    thoughYouNeverNamedIt: ', though you never named it',
    putDownMostlyToIt: (missesAre: string, youNamedIt: string) =>
      `${missesAre} put down mostly to it${youNamedIt}.`,
    furtherMiss: 'further miss',
    furtherMisses: 'further misses',
    itHasAPartIn: (furtherMisses: string) => `It has a part in ${furtherMisses}.`,
    whatItSharesThem: (listed: string) => `What it shares them with, in misses: ${listed}.`,
    miss: 'miss',
    misses: 'misses',
    it: 'it',
    them: 'them',
    couldHaveCome: (misses: string, it: string, listed: string) =>
      `${misses} could have come from it, but others explain ${it} better: ${listed}.`,
    item: 'item',
    nothingSpeaksAgainstAGap: 'nothing speaks against a gap here.',
    theRightOnesSpeakAgainst:
      'the right ones speak against a gap, the more the closer they lean on it.',
    ofThatLean: (items: string, rightCount: number, share: string, nothingSpeaks: string) =>
      `Of ${items} that lean on it you had ${rightCount} right (${share}): ${nothingSpeaks}`,
  },
  rootsPage: {
    roots: 'Roots',
    conceptsRankedByHowMany: 'Concepts ranked by how many of your misses probably come from them.',
    thisConcept: 'This concept is not on the map.',
    backToAllRoots: 'Back to all roots',
    tracingYourMisses: 'Tracing your misses…',
    theMisses: (message: string) => `The misses could not be traced: ${message}`,
    traceAgain: 'Trace again',
    noMissToTraceYet: 'No miss to trace yet',
    theLogIsEmptyBring:
      'The log is empty. Bring in results, or write down a block and mark what you missed.',
    yourLogHasItems:
      'Your log has items but no miss. Mark what you missed in a block, and its roots appear here.',
    bringInResults: 'Bring in results',
    goToTheLog: 'Go to the log',
    item: 'item',
    miss: 'miss',
    misses: 'misses',
    recentOnesCount: (weighedMisses: string) =>
      `Recent ones count most: by today’s weight they come to ${weighedMisses}, of which about`,
    areTracedToGaps: (slip: string) =>
      `are traced to gaps and ${slip} look like slips, which no reading mends. The rest`,
    haveNoOneConcept: 'have no one concept to blame.',
    missNames: 'miss names',
    missesName: 'misses name',
    neitherATopicNor: (missesName: string) => `${missesName} neither a topic nor a cause:`,
    it: 'it',
    them: 'them',
    review: (it: string) => `review ${it}`,
    they: 'they',
    andCanBeTraced: (it: string) => `, and ${it} can be traced.`,
    tracedFromTheBlocks: (weeks: number) =>
      `Traced from the blocks of the last ${weeks} weeks alone, worked out at once; the intervals are rough.`,
    bringingItUpToDate: 'Bringing it up to date…',
    whichHasNotSettledTake: ', which has not settled: take the intervals as rough.',
    workedOutBySampling: (whichHas: string) => `Worked out by sampling${whichHas}`,
    theCarefulPassIsReady: 'The careful pass is ready and takes over when you leave the list.',
    workedOutAtOnce:
      'Worked out at once. A careful pass is under way and will sharpen the intervals.',
    workedOutAtOnceRough: 'Worked out at once; the intervals are rough.',
    nothingStandsOut: 'Nothing stands out.',
    noConceptHasAnEven:
      'No concept has an even chance of being a gap: your misses may be slips and single facts. The order below is weak evidence.',
    system: 'System',
    allSystems: 'All systems',
    discipline: 'Discipline',
    allDisciplines: 'All disciplines',
    period: 'Period',
    allBlocks: 'All blocks',
    theLastWeeks: (count: number) => `The last ${count} weeks`,
    besidePlainCounting: 'Beside plain counting',
    noMissIsTraced: 'No miss is traced to a concept that passes these filters.',
    tooFewMissesToRank:
      'Too few misses to rank yet: with so little to go on they could all be slips. Every block you write down makes the picture clearer.',
    rootsMostTracedMissesFirst: 'Roots, most traced misses first',
    howToReadThis: 'How to read this',
    tracedMisses: 'Traced misses',
    howManyOfYourMisses:
      ': how many of your misses probably come from this concept because it is a gap. Each miss is shared between the concepts that could have caused it, and an old miss counts less than a recent one, so these add up to less than the misses you had. The thin line is the 90% interval.',
    gapChance: 'Gap chance',
    howLikely:
      ': how likely it is that you miss items on this concept clearly more often than single facts and slips would explain.',
    reach: 'Reach',
    inHowManyOrganSystems: (systems: string) =>
      `: in how many organ systems its traced misses fall, as an effective number: misses spread evenly over four systems give 4. The strip shows them in the order ${systems}.`,
    byCounting: 'By counting',
    whereTheConceptWouldStand:
      ': where the concept would stand if one only counted how often you named it as the cause.',
    howTheMethodWorks: 'How the method works, and when not to believe it',
    aStudyAidNothingHere:
      'A study aid: nothing here is advice for the care of anyone. Current local guidelines and licensed practitioners decide.',
  },
  agingWords: {
    oldEvidenceCountsAsMuch: 'Old evidence counts as much as new',
    evidenceLosesHalfItsWeight: (halfLifeDays: number) =>
      `Evidence loses half its weight in ${halfLifeDays} days`,
    ofFiveWaysToLet: (pace: string) =>
      `${pace}: of five ways to let it age, this one has foretold your own results best.`,
    noOtherPaceHasForetold: (pace: string) =>
      `${pace}: no other pace has foretold your own results clearly better.`,
    untilThereAre400Items: (pace: string) => `${pace} until there are 400 items to choose by.`,
    withMissesAlone: (pace: string) => `${pace}; with misses alone there is nothing to choose by.`,
  },
} as const;
