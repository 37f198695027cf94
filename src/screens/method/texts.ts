/** The words of the screen “method”, by the file that shows or says them. */
export const texts = {
  methodPage: {
    theMethod: 'The method',
    howMissesAreTraced:
      'How misses are traced to concepts, what that takes for granted, and when not to believe it.',
    whyNotSimplyCount: 'Why not simply count?',
    countingWhichConceptYouNamed:
      'Counting which concept you named most often goes wrong in three ways. What is asked often is missed often, even when you know it as well as the rest. One deep gap is split over the many topics it spoils, so that none of them looks bad. And under pressure people write down the topic of the item instead of what was missing. Tracing corrects all three: it weighs what you answered',
    right: 'right',
    onTheSameConcepts:
      'on the same concepts, it shares each miss between the concepts that could have caused it, and it takes your word for the cause as a good hint and no more.',
    whatItTakesForGranted: 'What it takes for granted',
    anItemLeans: 'An item leans on its topics, and on what they rest on.',
    aTopicCountsInFull: 'A topic counts in full; a concept one',
    restsOn: 'rests on',
    linkBelowItCountsWhere: (oneLink: string, twoLinks: string) =>
      `link below it counts ${oneLink} where the link gives no strength of its own, two links below ${twoLinks}, three links at most.`,
    eachConceptIsAGap: 'Each concept is a gap or it is sound.',
    aGapMakesYouMiss: (fewestConcepts: number, mostConcepts: number) =>
      `A gap makes you miss items that lean on it often, a sound concept hardly ever. Before the first block about ${fewestConcepts} concepts in ${mostConcepts} are taken to be gaps; your own misses soon outweigh that.`,
    aMissNeedsOneCause: 'A miss needs one cause among several.',
    anyGapTheItemLeans:
      'Any gap the item leans on may have caused it, and so may a slip, which happens with everyone and which no reading mends. Where other items show one concept to be at fault, the rest are let off: they are explained away.',
    yourWordCountsWithDoubt: 'Your word counts, with doubt.',
    aNamedCauseIsTaken: (labelTrue: string, labelTopic: string) =>
      `A named cause is taken to be the true one ${labelTrue} of the time, the item’s own topic ${labelTopic}, anything else the rest. Reasons such as`,
    misread: 'misread',
    misreadOr: 'or',
    ranOutOfTime: 'ran out of time',
    speakTo1: (reasonRatio: number) => `speak ${reasonRatio} to 1 for a slip,`,
    notKnown: 'not known',
    asMuchAgainstIt: 'as much against it.',
    evidenceAges: 'Evidence ages.',
    itLosesHalfItsWeight: (defaultHalfLifeDays: number, readingDiscount: string) =>
      `It loses half its weight in ${defaultHalfLifeDays} days, unless another pace has foretold your own results clearly better. What came before you read up on a concept counts ${readingDiscount} of that.`,
    whatTheNumbersMean: 'What the numbers mean',
    tracedMisses: 'Traced misses',
    theExpectedNumber:
      'The expected number of your misses, by today’s weight, that come from this concept because it is a gap. Shares of one miss over all concepts and the slip add up to one.',
    interval90: '90% interval',
    nineTimesInTen:
      'Nine times in ten the true number should lie inside, if the model holds. It is wide with few items. It does not cover a map that is wrong.',
    gapChance: 'Gap chance',
    howLikely:
      'How likely it is that the concept is a gap. A high chance with few traced misses is a gap that is seldom asked: it may wait.',
    reach: 'Reach',
    inHowManyOrganSystems:
      'In how many organ systems its traced misses fall, as an effective number (the exponential of the entropy, which ecologists call the Hill number of order 1).',
    theyAreWorkedOutTwice:
      'They are worked out twice: at once, by a quick pass that always gives the same answer to the same log, then carefully, by drawing thousands of ways things could have been that fit your log (Gibbs sampling). If the draws have not settled, the screen says so.',
    whenNotToBelieveIt: 'When not to believe it',
    withFewItems: 'With few items.',
    belowSome400Items:
      'Below some 400 items the order of the ranking is a hint. Look at the intervals, not at the places.',
    withMissesAlone: 'With misses alone.',
    withoutTheItemsYouGot:
      'Without the items you got right, nobody can tell what is hard for you from what is often asked. Bring in whole results where you can.',
    withAWrongMap: 'With a wrong map.',
    aLink: 'A',
    linkThatIsMissingHides:
      'link that is missing hides a deep gap; one that should not be there invents it. The map is yours to mend.',
    withTopicsGuessedCarelessly: 'With topics guessed carelessly.',
    aWrongTopicPutsRight: 'A wrong topic puts right answers and misses on the wrong concept.',
    rightAfterAChange: 'Right after a change.',
    aGapYouHaveMended:
      'A gap you have mended keeps traced misses for a while, until newer items outweigh the old ones.',
    asACause: 'As a cause in the strict sense.',
    itFindsTheConcepts: 'It finds the concepts that explain your log best. A log cannot prove why.',
    whereItComesFrom: 'Where it comes from',
    thePartsAreOld:
      'The parts are old and published: the noisy-OR of several causes (Pearl 1988), thresholded Poisson counts for yes/no outcomes (Zhou 2015), gaps and sound concepts as two groups (Efron 2008), doubt in labels (Dawid and Skene 1979), convergence of the draws (Vehtari and others 2021). How near it comes to the truth on simulated candidates stands in the project’s README, with the command that prints it.',
    aStudyAidNothingHere:
      'A study aid: nothing here is advice for the care of anyone. Current local guidelines and licensed practitioners decide.',
  },
} as const;
