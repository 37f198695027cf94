/** The words of the shared parts, by the file that shows or says them. */
export const texts = {
  conceptPicker: {
    add: '+ add',
    isAddedToTheMap: (name: string) => `${name} is added to the map and chosen.`,
    isChosen: (added: string) => `${added} is chosen.`,
    isTakenOut: (concept: string) => `${concept} is taken out.`,
    takeOutFrom: (concept: string, label: string) => `Take out ${concept} from ${label}`,
    addAnother: 'Add another…',
    typeAFewLetters: 'Type a few letters…',
    chosen: 'chosen',
    addToTheMap: (typed: string) => `Add “${typed}” to the map`,
    nothingOnTheMap: 'Nothing on the map is called so.',
    isNotChosenYetTake: (typed: string) =>
      `“${typed}” is not chosen yet: take a line of the list, or Escape to drop it.`,
  },
  confirmDialog: {
    keepEverything: 'Keep everything',
  },
  lineText: {
    thisTeXCannotBeRead: (message: string) => `This TeX cannot be read: ${message}`,
  },
  noteText: {
    pictureWhatItShows: 'Picture; what it shows is not written down',
    thePicture: 'The picture is not on this device',
  },
  noticeList: {
    close: (text: string) => `Close: ${text}`,
    closeLabel: 'Close',
  },
  showMore: {
    showMoreLeft: (left: string) => `Show more (${left} left)`,
    allAreShown: 'All are shown.',
  },
  paperForecast: {
    noMissHasALook: 'No miss has a look left before the paper.',
    atThisPace: 'At this pace',
    lowToHigh: (low: string, high: string) => `${low} to ${high}`,
    openMiss: 'open miss',
    openMisses: 'open misses',
    ofTodaysWillBeSettled: (openMisses: string, runs: number) =>
      `of today’s ${openMisses} will be settled on paper day (90% of ${runs} simulated runs).`,
    noLookWasMadeYet: 'No look was made yet, so this takes it that you make every planned one.',
    missGets: 'miss gets',
    missesGet: 'misses get',
    aboutNoLook: (missesGet: string) =>
      `About ${missesGet} no look at all, for want of minutes: those least likely to be worth one.`,
    looksADayUntilThen: 'Looks a day until then',
    weekFrom: 'Week from',
    looksADay: 'Looks a day',
    aboutAtMost: (mean: string, most: string) => `about ${mean}, at most ${most}`,
    stopped: 'Stopped.',
    simulateAgain: 'Simulate again',
    simulatingTheDays: 'Simulating the days to the paper',
    stop: 'Stop',
  },
  pictureInput: {
    thePictureIsAdded: 'The picture is added.',
    anywhereOnThisPage: ' anywhere on this page',
    chooseAFileDrop: (anywhereOn: string) =>
      `Choose a file, drop one here, or paste a copied picture${anywhereOn}.`,
    whatWillBeAdded: 'What will be added',
    whatDoesItShow: 'What does it show?',
    aFewWordsInPlace:
      'A few words in place of the picture, for who cannot see it and for finding it again.',
    adding: 'Adding…',
    addThePicture: 'Add the picture',
    leaveIt: 'Leave it',
  },
  pictureView: {
    pictureWhatItShows: 'Picture; what it shows is not written down',
    thePictureIsLoading: 'The picture is loading.',
    thePicture: 'The picture is not on this device.',
    itShowsABackup: (words: string) =>
      `It shows: ${words}. A backup of the device it was added on brings it here.`,
    thePictureCannotBeShown: (message: string) => `The picture cannot be shown. ${message}`,
  },
  savedField: {
    notSaved: (failure: string) => `Not saved: ${failure}`,
    saving: 'saving…',
    saved: 'saved',
    tryAgain: 'Try again',
    empty: '(empty)',
    anotherTabWroteHereWhile: (value: string) =>
      `Another tab wrote here while you were typing: “${value}”`,
    keepWhatITyped: 'Keep what I typed',
    takeTheOther: 'Take the other',
  },
  screenHead: {
    hypocentre: (title: string) => `${title} · Hypocentre`,
  },
  systemStrip: {
    noSystem: 'no system',
    tracedMissesBySystem: (words: string) => `Traced misses by system: ${words}`,
  },
  figure: {
    asATable: 'As a table',
    asATableOf: (title: string) => `${title}, as a table`,
  },
  intervalPlot: {
    lowToHigh: (low: string, high: string) => `${low} to ${high}`,
    of: 'Of',
    from: 'From',
    toLabel: 'To',
    note: 'Note',
    pointsWalkThem: (title: string, markedCount: number) =>
      `${title}. ${markedCount} points; walk them with the arrow keys.`,
  },
  rowsPlot: {
    readingOfRow: (label: string, value: string, low: string, high: string, note: string) =>
      `${label}: ${value}, ${low} to ${high}; ${note}`,
    from: 'From',
    toLabel: 'To',
    note: 'Note',
    rowsWalkThem: (title: string, rowCount: number) =>
      `${title}. ${rowCount} rows; walk them with the arrow keys.`,
  },
  noteHtml: {
    picture: 'picture',
    notShown: (picture: string) => `[${picture}: not shown, it lies elsewhere]`,
  },
  numberField: {
    wholeNumber: 'whole number',
    number: 'number',
    writeANumber: (wholeNumber: string, least: number, most: string) =>
      `Write a ${wholeNumber} from ${least} to ${most}, or nothing.`,
  },
  trendWords: {
    more: 'more',
    fewer: 'fewer',
    tracedMissesIn100Times: (abs: string, more: string) =>
      `${abs} traced misses ${more} in 100 times it was called on`,
    whichCouldBeChance: ', which could be chance',
    againstTheFourWeeksBefore: (size: string, chance: string) =>
      `Against the four weeks before, the last four brought ${size}${chance}.`,
  },
} as const;
