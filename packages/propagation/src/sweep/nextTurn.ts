/** Waits for the next turn of the event loop: only between turns can a page draw, and a button that aborts be pressed. */
export function nextTurn(): Promise<void> {
  return new Promise((resume) => setTimeout(resume, 0));
}
