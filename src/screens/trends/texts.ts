/** The words of the screen “trends”, by the file that shows or says them. */
export const texts = {
  comparisonList: {
    differencesInPointsWith95: 'Differences in points, with 95% intervals',
    eachRowIsOneComparison:
      'Each row is one comparison. A point right of the middle line means that the first group had more right; an interval across the line means that it may be the other way round.',
    comparison: 'Comparison',
    difference: 'Difference',
    standsOutFromLuck: 'stands out from luck',
    mayBeLuck: 'may be luck',
    noDifference: 'no difference',
    writeDownYourNights: 'Write down your nights',
    toSeeIt: 'to see it.',
    changedAnswers: 'Changed answers',
  },
  daysPage: {
    low: 'low',
    ratherLow: 'rather low',
    middling: 'middling',
    ratherGood: 'rather good',
    good: 'good',
    fieldOf: (what: string, day: string) => `${what} of ${day}`,
    anotherTabChangedThisDay: 'another tab changed this day just now',
    delete: (day: string) => `delete ${day}`,
    deleted: (day: string) => `Deleted ${day}.`,
    hSleep: (sleepHours: string) => `${sleepHours} h sleep`,
    minActive: (activityMinutes: string) => `${activityMinutes} min active`,
    aDayOfRest: 'a day of rest',
    mood: (mood: string) => `mood ${mood}`,
    nothingWritten: 'nothing written',
    sleepActivityMood: 'Sleep, activity, mood',
    allOfItOptional: 'All of it optional, and all of it stays on this device.',
    backToTrends: 'Back to Trends',
    day: 'Day',
    today: 'Today',
    hoursSleptInTheNight: 'Hours slept in the night before',
    usualSleep: '7.5 to 8 is common advice.',
    sleep: 'sleep',
    minutesOfActivity: 'Minutes of activity',
    walkingSportAnythingThatMoves: 'Walking, sport, anything that moves you.',
    activity: 'activity',
    rest: 'rest',
    aDayOfRestLabel: 'A day of rest',
    moodLabel: 'Mood',
    moodWord: 'mood',
    notSaid: 'Not said',
    sleepAndActivityFigures:
      'Sleep and activity figures are for your own planning; lasting insomnia, low mood or exhaustion are reasons to see a clinician.',
    dayWord: 'day',
    writtenDown: (days: string) => `${days} written down`,
    noneYetAWeek: 'None yet. A week of nights is enough to begin to see anything.',
    deleteOf: (day: string) => `Delete ${day}`,
    deleteLabel: 'Delete',
  },
  expected: {
    foretellingYourBlocks: 'Foretelling your blocks from what lay before each…',
    itCouldNotBeWorked: (message: string) => `It could not be worked out: ${message}`,
    tryAgain: 'Try again',
    notEnoughYetFrom400:
      'Not enough yet: from 400 items with topics on, the log can be foretold and checked.',
    yourLogItemisesHardly:
      'Your log itemises hardly any right answers, so there is nothing to foretell from. Results brought in with their topics, right ones too, mend that.',
    asThingsStandAbout: 'As things stand, about',
    ofABlock: 'of a block with your log’s mix of topics should come out right',
    nineBlocksInTenShould: '; nine blocks in ten should fall between',
    lowAndHigh: (low: string, high: string) => `${low} and ${high}`,
    goingByHowFarEarlier: (errors: string) =>
      `, going by how far ${errors} earlier predictions were off`,
    low: 'low',
    high: 'high',
    theTracingItselfSays: (share: string, low: string, abs: string) =>
      `The tracing itself says ${share}; its predictions so far were too ${low} by ${abs} points on the whole, which is set right here.`,
    chooseYourPaperDayOn: 'Choose your paper day on',
    today: 'Today',
    andItIsForetold: ', and it is foretold as well.',
    day: 'day',
    onPaperDay: (paperDay: string, days: string) =>
      `On paper day, ${paperDay}, in ${days}: the same figure if nothing is read and nothing forgotten`,
    andBetween: ', and between',
    aboutThatReach: 'about that reach',
    atMostAheadNoneReached: (days: string) =>
      `at most ${days} ahead: none reached so far, so take it as too narrow`,
    forABlockJudging: (errors: string, aboutThat: string) =>
      `for a block, judging by ${errors} predictions of ${aboutThat}`,
    aPaper: '. A paper is not a practice block: its items, and the day, are others.',
    whatWasForetold: 'What was foretold, and what came',
    itemsInEightGroups:
      'Items in eight groups by the chance of right that was foretold for them, against the share that came out right. On the dashed line both are equal.',
    foretold: 'Foretold',
    cameOutRight: 'Came out right',
    item: 'item',
    eachForetoldFromTheLog: (items: string) =>
      `${items}, each foretold from the log as it was before it. Lines are 95% intervals of Wilson.`,
  },
  pace: {
    first: 'first',
    second: 'second',
    third: 'third',
    fourth: 'fourth',
    last: 'last',
    noBlockThatWasTimed:
      'No block that was timed has its minutes used written down. They are asked for in the block’s header, in the Log.',
    timedBlock: 'timed block',
    inYourLastAnItem: (timedBlocks: string) => `In your last ${timedBlocks} an item took`,
    s: (mean: string) => `${mean} s`,
    intervalOfTheMean: (low: string, high: string) =>
      ` (95% interval of the mean ${low} to ${high})`,
    thePaperGivesS: (intervalOfThe: string, paceSeconds: string) =>
      `${intervalOfThe}; the paper gives ${paceSeconds} s.`,
    thatIsSlower: 'That is slower than the paper.',
    thatIsWithinThePapers: 'That is within the paper’s pace.',
    thatIsAboutThePapers:
      'That is about the paper’s pace; the blocks vary too much to say which side.',
    thePapersSecondsAreSet: 'The paper’s seconds are set on the',
    recallSheet: 'Recall sheet',
    underMinutesSpeedAndPaper: ', under “Minutes, speed and paper”.',
    secondsAnItemWeek: 'Seconds an item, week by week, in timed blocks',
    eachPointIsTheMean:
      "Each point is the mean of a week's timed blocks; the dashed line is what the paper gives.",
    weekOf: 'Week of',
    secondsAnItem: 'Seconds an item',
    thePaper: 'the paper',
    linesAre95Intervals: 'Lines are 95% intervals of the mean; a week with one block has none.',
    noMissInWasPut: (timedBlocks: string) =>
      `No miss in ${timedBlocks} was put down to time running out.`,
    item: 'item',
    timeRanOut: (
      items: string,
      timedBlocks: string,
      inHundred: string,
      blocks: number,
      inLast: number,
      inLastHundred: string,
    ) =>
      `Time ran out on ${items} in ${timedBlocks}, ${inHundred} in a hundred; in the last ${blocks} blocks on ${inLast}, ${inLastHundred} in a hundred.`,
    rightAnswersOverTheBlock: 'Right answers over the block, in timed blocks',
    accuracyInEachFifth: 'Accuracy in each fifth of the block, all timed blocks together.',
    fifthOfTheBlock: 'Fifth of the block',
    right: 'Right',
    onlyBlocksWhoseEveryMiss:
      'Only blocks whose every miss has its place. Lines are 95% intervals; whether the last fifth differs beyond luck stands among the comparisons.',
  },
  rootCourses: {
    fourWeeksFromOfItems: (concept: string, step: string, traced: string, items: number) =>
      `${concept}, four weeks from ${step}: ${traced} of ${items} items`,
    missesTracedToEachRoot: (rootStepWeeks: number) =>
      `Misses traced to each root, every ${rootStepWeeks} weeks`,
    oneRowOfBars:
      'One row of bars for each of the first roots, all on one scale, the earliest four weeks at the left.',
    from: 'From',
    items: 'Items',
    byTheDayTheMiss:
      'By the day the miss was made, unweighted: what is missed less since a reading shows here. Weeks with more items have more misses; the table gives the items.',
    missesTracedToEachRootBars: (barCount: number, courseCount: number) =>
      `Misses traced to each root. ${barCount} bars in ${courseCount} rows; walk them with the arrow keys.`,
  },
  trendsPage: {
    aConceptGone: 'a concept gone',
    trends: 'Trends',
    whetherYouAreOnCourse: 'Whether you are on course, and how much of it could be luck.',
    sleepActivityMood: 'Sleep, activity, mood',
    oneRow: (label: string) =>
      `One row for each ${label}: its share of right items as estimated, its 90% interval, and a mark where the plain count lies.`,
    right: 'Right',
    item: 'item',
    ofRight: (right: number, items: string) => `${right} of ${items} right`,
    theWhole: 'the whole',
    fewItemsSayLittle:
      'Few items say little, so each is drawn towards the whole, the less it has the more (beta-binomial, fitted to all). The short upright mark is the plain count.',
    theyDiffer:
      'They differ no more than luck would make them: the estimates lie close to the whole, and the plain counts (upright marks) should not be read as strong and weak ones.',
    noBlockToCountYet: 'No block to count yet',
    theLogIsEmptyWrite:
      'The log is empty. Write down a block, or bring in results, and its accuracy appears here.',
    yourBlocksHaveNoMisses:
      'Your blocks have no misses marked yet, or tell only of misses, so nobody knows how many items were right.',
    goToTheLog: 'Go to the log',
    bringInResults: 'Bring in results',
    countingYourBlocks: 'Counting your blocks…',
    accuracyByWeek: 'Accuracy by week',
    latelyAbout: 'Lately about',
    rightTo: (low: string, high: string) => `right (${low} to ${high})`,
    fourWeeksEarlierTo: (share: string, low: string, high: string) =>
      `; four weeks earlier ${share} (${low} to ${high}).`,
    theTwoBandsLieApart: 'The two bands lie apart: more than luck.',
    theTwoBandsLieApartFell: 'The two bands lie apart, and accuracy fell: more than luck.',
    theTwoBandsOverlap: 'The two bands overlap: this may be luck.',
    rightItemsWeekByWeek: 'Right items, week by week',
    eachPointIsAWeek:
      'Each point is a week with its 95% interval; the line through them is a smoothed mean with its band.',
    weekOf: 'Week of',
    linesAre95Intervals: 'Lines are 95% intervals of Wilson.',
    theCurveIsAKernel: (width: string) =>
      `The curve is a kernel mean (Nadaraya and Watson) of ${width} weeks’ width, the width that best foretells each week from the others; its band does not know what it smooths away.`,
    whatToExpect: 'What to expect',
    bySystemAndDiscipline: 'By system and discipline',
    ratesBySystemNeedBlocks:
      'Rates by system need blocks whose right items are itemised too, as results brought in from a table are. The',
    roots: 'Roots',
    makeDoWithTheMisses: 'make do with the misses.',
    rightItemsBySystem: 'Right items by system',
    system: 'System',
    rightItemsByDiscipline: 'Right items by discipline',
    discipline: 'Discipline',
    rootsOverTime: 'Roots over time',
    followingTheFirstRootsBack: 'Following the first roots back through the log…',
    theyCouldNotBeFollowed: (message: string) => `They could not be followed: ${message}`,
    noRootToFollowYet: 'No root to follow yet.',
    settledAndOpenMisses: 'Settled and open misses',
    noMissIsItemisedYet: 'No miss is itemised yet.',
    settled: 'settled,',
    openAMissIsSettled: 'open. A miss is settled while you had it at its latest second look.',
    noSecondLookWasTaken: 'No second look was taken yet.',
    missesSettledAndOpenWeek: 'Misses settled and open, week by week',
    atTheEnd: 'At the end of each week, the misses settled so far and those still open.',
    misses: 'Misses',
    settledLabel: 'Settled',
    weekOfOf: (weekName: string) => `Week of ${weekName}`,
    fullPointsOpenRingsSettled: 'Full points: open. Rings: settled.',
    pace: 'Pace',
    comparisons: 'Comparisons',
    noneOfTheseSays:
      'None of these says what makes the difference: blocks differ in more ways than a log knows. They are made together, so each allows for the others (Benjamini and Hochberg), and for blocks differing among themselves by more than their items would.',
    figuresOfPracticeBlocks:
      'Figures of practice blocks are for your own planning. They are not a forecast of a result, and not advice for the care of anyone.',
  },
  comparisonWords: {
    timedAgainstUntimed: 'Timed against untimed',
    timedBlocks: 'timed blocks',
    untimedBlocks: 'untimed blocks',
    peopleGoOverToTimed:
      'People go over to timed blocks as they get better, so weeks may lie behind it.',
    mixedAgainstOneSystem: 'Mixed against one system',
    mixedBlocks: 'mixed blocks',
    blocksOnOneSystem: 'blocks on one system',
    blocksOnOneSystemTell:
      'Blocks on one system tell you the topic beforehand, which the paper does not. Mixed practice often looks worse today and lasts longer.',
    minutesGiven: 'Minutes given',
    blocksAtThePapersPace: 'blocks at the paper’s pace or faster',
    blocksWithMoreTime: 'blocks with more time',
    blocksWithMoreTimeMay: 'Blocks with more time may be the earlier ones.',
    hourOfDay: 'Hour of day',
    blocksBegunBeforeNoon: 'blocks begun before noon',
    blocksBegunLater: 'blocks begun later',
    workingDaysAndFreeDays: 'Working days and free days differ in more than the hour.',
    sleepOfTheNightBefore: 'Sleep of the night before',
    blocksAfterHoursOrMore: (sleepEnough: number) => `blocks after ${sleepEnough} hours or more`,
    blocksAfterLessThanHours: (sleepEnough: number) =>
      `blocks after less than ${sleepEnough} hours`,
    aShortNightHasReasons:
      'A short night has reasons of its own, and they may tell on a block as well.',
    reviewOfTheBlockBefore: 'Review of the block before',
    blocksAfterHoursOfReview: (reviewEnough: number) =>
      `blocks after ${reviewEnough} hours of review an hour or more`,
    blocksAfterLessReview: 'blocks after less review',
    longReviewsFollowBlocks: 'Long reviews follow blocks with many misses.',
    theEndOfTheBlock: 'The end of the block',
    theLastFifthOfTimed: 'the last fifth of timed blocks',
    theRestOfThem: 'the rest of them',
    theLastItems: 'The last items are also those that time runs out on.',
    luckAloneWouldOftenMake: 'Luck alone would often make so large a difference',
    luckAloneWouldMake: (round: number) =>
      `Luck alone would make so large a difference about once in ${round} times`,
    luckAloneWouldMakeSo: (round: number) =>
      `Luck alone would make so large a difference only about once in ${round} times`,
    luckAloneWouldMakeSoLarge:
      'Luck alone would make so large a difference less than once in a thousand times',
    moreChange: 'more change',
    moreBlock: 'more block',
    someAtYourRate: (moreBlocks: string) => `, some ${moreBlocks} at your rate,`,
    notEnoughYet: (moreChanges: string, someAtYour: string) =>
      `Not enough yet: about ${moreChanges}${someAtYour} to see two helpful ones in three.`,
    change: 'change',
    soFarInBlocks: (changes: string) =>
      `So far ${changes} in blocks that say how many answers were changed to right.`,
    theBlocksHeader:
      'The block’s header in the Log asks for the number; changes from right are the misses with that reason.',
    changedFromWrongToRight: (
      toRight: number,
      fromRight: number,
      share: string,
      low: string,
      high: string,
    ) =>
      `${toRight} changed from wrong to right, ${fromRight} from right to wrong: ${share} helped, 95% interval ${low} to ${high}.`,
    withAllComparisons: (luck: string) =>
      `${luck}, with all comparisons on this page allowed for. The log cannot say whether the next change will help.`,
    thereAreChangesEnough: (luck: string) =>
      `${luck}. There are changes enough that two helpful ones in three would probably have shown.`,
    noNumberOfBlocks: 'No number of blocks you are likely to do would settle it.',
    notEnoughYetAbout: (moreBlocks: string, differenceThatMatters: number) =>
      `Not enough yet: about ${moreBlocks} to see a difference of ${differenceThatMatters} points.`,
    soFarOfEach: (blocks: number, one: string, otherBlocks: number, other: string) =>
      `So far ${blocks} ${one} and ${otherBlocks} ${other}.`,
    rightInInPoints95: (
      share: string,
      one: string,
      blocks: number,
      otherShare: string,
      other: string,
      otherBlocks: number,
      difference: string,
      low: string,
      high: string,
    ) =>
      `${share} right in ${one} (${blocks}), ${otherShare} in ${other} (${otherBlocks}): ${difference} points, 95% interval ${low} to ${high}.`,
    withAllComparisonsOn: (adjusted: string, beware: string) =>
      `${adjusted}, with all comparisons on this page allowed for. The log cannot say why. ${beware}`,
    thereAreBlocksEnough: (adjusted: string, differenceThatMatters: number) =>
      `${adjusted}. There are blocks enough that a difference of ${differenceThatMatters} points would probably have shown.`,
    block: 'block',
    oneSideRests: (blocks: string) => `One side rests on ${blocks} only: take it lightly.`,
  },
} as const;
