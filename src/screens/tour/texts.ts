/** The words of the screen “tour”, by the file that shows or says them. */
export const texts = {
  tourStrip: {
    tourOfTheDemo: 'Tour of the demo',
    stepOf: (number: number, tourStepCount: number, screen: string) =>
      `${number} of ${tourStepCount}, ${screen}.`,
    thatIsAllLeave: 'That is all: leave the tour and look around.',
    next: (screen: string) => `Next: ${screen}`,
    show: (screen: string) => `Show ${screen}`,
    back: (screen: string) => `Back: ${screen}`,
    leaveTheTour: 'Leave the tour',
    aTourOfFiveSteps: 'A tour of five steps, about two minutes, shows what to notice here.',
    beginTheTour: 'Begin the tour',
    noTour: 'No tour',
    takeTheTour: 'Take the tour',
  },
} as const;
