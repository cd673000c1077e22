import type { TimeWindow } from './time-window.ts';

/** What the page's controls can ask for. */
export interface Actions {
  window: TimeWindow;
  /** Time under the cursor, if it is in sight. */
  cursorS(): number | undefined;
  /** Moves the cursor by a share of the window, positive = later. */
  moveCursor(share: number): void;
}

/** Wires the buttons of the toolbar and the keys of the charts. */
export function wireControls(charts: HTMLElement, actions: Actions): void {
  const { window: view } = actions;
  const acts: Record<string, () => void> = {
    in: () => view.zoom(2, actions.cursorS()),
    out: () => view.zoom(0.5, actions.cursorS()),
    earlier: () => view.move(-0.4),
    later: () => view.move(0.4),
    all: () => view.reset(),
  };
  const buttons = [...charts.querySelectorAll<HTMLButtonElement>('[data-act]')];
  for (const button of buttons) {
    button.addEventListener('click', () => acts[button.dataset.act ?? '']?.());
  }
  charts.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const act = keyAct(event, acts, actions);
    if (act === undefined) return;
    event.preventDefault();
    act();
  });
  const greyOut = () => {
    for (const button of buttons) {
      const needsRoom = button.dataset.act !== 'in';
      button.setAttribute('aria-disabled', String(needsRoom && view.isWhole()));
    }
  };
  view.onChange(greyOut);
  greyOut();
}

function keyAct(
  event: KeyboardEvent,
  acts: Record<string, () => void>,
  actions: Actions,
): (() => void) | undefined {
  const byArrow = (direction: number) =>
    event.shiftKey
      ? () => actions.window.move(0.2 * direction)
      : () => actions.moveCursor(0.01 * direction);
  switch (event.key) {
    case '+':
    case '=':
      return acts.in;
    case '-':
    case '\u2212':
      return acts.out;
    case '0':
      return acts.all;
    case 'ArrowLeft':
      return byArrow(-1);
    case 'ArrowRight':
      return byArrow(1);
    default:
      return undefined;
  }
}
