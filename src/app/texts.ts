/** The words of the frame, by the file that shows or says them. */
export const texts = {
  allScreens: {
    allScreens: 'All screens',
    whereToGoForWhat: 'Where to go for what.',
  },
  app: {
    theListOfKeys: 'The list of keys could not be fetched. It stands under About as well.',
    skipToTheScreen: 'Skip to the screen',
    screens: 'Screens',
    hypocentre: 'Hypocentre',
    moreAllScreens: 'More: all screens',
    more: 'More',
    takeBack: (undoLabel: string) => `Take back: ${undoLabel}`,
    undo: 'Undo',
    doAgain: (redoLabel: string) => `Do again: ${redoLabel}`,
    redo: 'Redo',
    theDemoAShipsMedical:
      'The demo: a ship’s medical technician moving ashore, and the “Inter-Island Licence” paper. All of it is invented.',
    leaveTheDemo: 'Leave the demo',
  },
  findBox: {
    findInEverythingYouWrote: 'Find in everything you wrote',
    find: 'Find…',
  },
  keyListDialog: {
    keys: 'Keys',
    onAMacCommandStands: 'On a Mac, Command stands for Ctrl. “?” can be switched off under About.',
    close: 'Close',
  },
  loadingScreen: {
    opening: 'Opening…',
  },
  notFoundScreen: {
    noSuchScreen: 'No such screen',
    theAddressNamesNothing: 'The address names nothing in this version of Hypocentre.',
    goToTheLog: 'Go to the log',
    goToTheRoots: 'Go to the roots',
  },
  troubleScreen: {
    hypocentre: (title: string) => `${title} · Hypocentre`,
    reload: 'Reload',
  },
  unfetchedScreen: {
    thisScreen: 'This screen could not be fetched',
    theAppMayHaveBeen:
      'The app may have been stopped, or a newer version has taken its place. What you saved is safe.',
    startTheAppAgain: 'Start the app again if it was stopped, then reload.',
    reload: 'Reload',
  },
  afterStart: {
    goToSafekeeping: 'Go to Safekeeping',
    theBrowserWants: (name: string) =>
      `The browser wants to be asked again before backups go into “${name}”. Until then none is made.`,
    backUpNow: 'Back up now',
    theFolderHasANew: (name: string) => `The folder “${name}” has a new backup.`,
    theLastBackup: 'The last backup is over three weeks old.',
    thereIsNoBackup: 'There is no backup of your log yet: it lives in this browser alone.',
    theRoomThatTheBrowser:
      'The room that the browser gives this site is nearly used up: soon nothing more can be saved. Make a backup, then free some disk space.',
  },
  main: {
    stillWaitingForTheStored: 'Still waiting for the stored data',
    theBrowserHasNotOpened:
      'The browser has not opened the log yet: the device may be busy, or the browser be tidying its files.',
    thisPageGoes:
      'This page goes on by itself. If it does not, close the browser and open it again.',
    waitingForAnotherTab: 'Waiting for another tab',
    aNewerVersionHasBeen: 'A newer version has been here',
    theLogCannotBeOpened: 'The log cannot be opened',
    theBrowserHadThrown: (count: number) =>
      `The browser had thrown its database away, as some do after a crash. The spare copy was there: all ${count} entries are back. A backup elsewhere is the surer way.`,
    goToSafekeeping: 'Go to Safekeeping',
    theLogCannotBeRead: 'The log cannot be read',
    reloadThePageToTry: 'Reload the page to try again.',
    reload: 'Reload',
    somethingWentWrong: (text: string) =>
      `Something went wrong in the program: ${text}. Saved entries are safe.`,
    hypocentreCouldNotStart: 'Hypocentre could not start',
    reloadThePage: 'Reload the page. If it happens again, please report it.',
  },
  offline: {
    aNewVersionOfHypocentre:
      'A new version of Hypocentre is ready. It can wait: Safekeeping keeps the offer.',
    takeItNow: 'Take it now',
  },
} as const;
