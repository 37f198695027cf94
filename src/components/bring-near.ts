/**
 * Scrolls to an element of a screen whose address has just changed. The router goes to the head of the
 * page with every address: at once, or now and then a frame later.
 */
export function bringNear(element: Element | null, block: ScrollLogicalPosition): void {
  const near = () => element?.scrollIntoView({ block });
  requestAnimationFrame(near);
  setTimeout(() => {
    if (window.scrollY === 0) near();
  }, 150);
}
