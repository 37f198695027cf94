/** The words of the screen “first-run”, by the file that shows or says them. */
export const texts = {
  firstRunPage: {
    beginWithTheStarterMap: 'Begin with the starter map',
    humanBiomedicalSciencesOver600:
      'Human biomedical sciences: over 600 concepts in twelve disciplines and fourteen organ systems, with what rests on what. It grows with the topics you add.',
    lookAtTheDemo: 'Look at the demo',
    theStarterMapWithHalf:
      'The starter map with half a year of an invented candidate’s blocks, notes and days, and a tour of five steps. It shows in a minute what the app is for, and leaves no trace when you leave it.',
    beginWithTheVeterinaryMap: 'Begin with the veterinary map',
    animalHealthAbout100Concepts: 'Animal health: about 100 concepts, a small map to grow from.',
    beginWithAnEmptyMap: 'Begin with an empty map',
    forAPaperInAnother:
      'For a paper in another field: concepts are added as you write down what you missed, or taken from the topics of a results table.',
    hypocentre: 'Hypocentre',
    youMissQuestions:
      'You miss questions all over the paper. A few missing concepts lie under many of them. Write down what you missed, and this app traces where the misses come from and how sure that is.',
    howDoYouWant: 'How do you want to begin?',
    layingItOut: 'Laying it out…',
    wasYourLogHereBefore:
      'Was your log here before, or is it on another device? A browser that runs short of room may have cleared it.',
    openABackup: 'Open a backup',
    everythingStaysInThisBrowser:
      'Everything stays in this browser, on this device. Nothing is sent anywhere. Clearing site data deletes it, and there is no backup yet.',
    aStudyAidNothing:
      'A study aid: nothing in it is advice for the care of anyone; current local guidelines and licensed practitioners decide. Its maps are a study aid’s vocabulary, not a clinical terminology.',
  },
} as const;
