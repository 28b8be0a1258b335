// @ts-check
/** Fingers and mouse on the paper: tap, long press, drag, two fingers to pinch and move. */

const SLACK_PX = { touch: 9, pen: 5, mouse: 3 };
const LONG_PRESS_MS = 550;

/**
 * @typedef {object} Hand what a drag that has begun does
 * @property {(px: number, py: number) => void} move @property {() => void} end @property {() => void} cancel
 */
/**
 * @typedef {object} Paper
 * @property {() => void} touch before all else: what is being typed is meant
 * @property {(px: number, py: number) => void} tap
 * @property {(px: number, py: number) => void} longPress while the finger is still down
 * @property {() => void} afterLongPress when it is lifted: only then may a keyboard come up
 * @property {(px: number, py: number, pointer: string) => Hand | null} take what lies there, or null for bare paper
 * @property {(dx: number, dy: number) => void} pan
 * @property {(times: number, px: number, py: number) => void} zoom
 */

/** @param {SVGSVGElement} drawing @param {Paper} paper */
export function listen(drawing, paper) {
  /** @type {Map<number, [number, number]>} */
  const down = new Map();
  /** @type {{id: number, start: [number, number], pointer: string, hand: Hand | null, moved: boolean,
   * done: boolean} | null} the first finger */
  let one = null;
  let timer = 0;

  /** @param {MouseEvent} event @returns {[number, number]} */
  const spot = event => {
    const box = drawing.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };

  drawing.addEventListener("pointerdown", event => {
    if (event.button !== 0) {
      return;
    }
    const at = spot(event);
    paper.touch();
    down.set(event.pointerId, at);
    try {
      drawing.setPointerCapture(event.pointerId);
    } catch {
      // a pointer that is gone already cannot be captured
    }
    if (down.size === 1) {
      const pointer = event.pointerType || "mouse";
      one = { id: event.pointerId, start: at, pointer, hand: null, moved: false, done: false };
      timer = window.setTimeout(() => {
        if (one && !one.moved) {
          one.done = true;
          paper.longPress(...at);
        }
      }, LONG_PRESS_MS);
    } else {
      letGo();
    }
  });

  drawing.addEventListener("pointermove", event => {
    const before = down.get(event.pointerId);
    if (!before) {
      return;
    }
    const at = spot(event);
    if (down.size >= 2) {
      pinch(event.pointerId, before, at);
    } else if (one && one.id === event.pointerId && !one.done) {
      dragOne(one, before, at);
    }
    down.set(event.pointerId, at);
  });

  /** @param {NonNullable<typeof one>} finger @param {[number, number]} before @param {[number, number]} at */
  function dragOne(finger, before, at) {
    if (!finger.moved) {
      if (Math.hypot(at[0] - finger.start[0], at[1] - finger.start[1]) < (SLACK_PX[finger.pointer] || SLACK_PX.touch)) {
        return;
      }
      finger.moved = true;
      clearTimeout(timer);
      finger.hand = paper.take(...finger.start, finger.pointer);
      before = finger.start;
    }
    if (finger.hand) {
      finger.hand.move(...at);
    } else {
      paper.pan(at[0] - before[0], at[1] - before[1]);
    }
  }

  /** @param {number} id @param {[number, number]} before @param {[number, number]} at */
  function pinch(id, before, at) {
    const [, other] = [...down].find(([each]) => each !== id) || [0, before];
    const [was, is] = [before, at].map(([x, y]) => ({
      x: (x + other[0]) / 2, y: (y + other[1]) / 2, apart: Math.hypot(x - other[0], y - other[1]) || 1,
    }));
    paper.pan(is.x - was.x, is.y - was.y);
    paper.zoom(is.apart / was.apart, is.x, is.y);
  }

  /** A second finger, or a lost one, ends what the first one did without a change. */
  function letGo() {
    clearTimeout(timer);
    if (one && one.hand) {
      one.hand.cancel();
    }
    one = null;
  }

  drawing.addEventListener("pointerup", event => {
    const isLast = down.delete(event.pointerId) && down.size === 0;
    const finger = one;
    if (!isLast || !finger || finger.id !== event.pointerId) {
      return;
    }
    clearTimeout(timer);
    one = null;
    if (finger.hand) {
      finger.hand.end();
    } else if (finger.done) {
      paper.afterLongPress();
    } else if (!finger.moved) {
      paper.tap(...finger.start);
    }
  });
  drawing.addEventListener("pointercancel", event => {
    down.delete(event.pointerId);
    letGo();
  });
  // The browser makes nothing else of a touch: no mouse events, which would take the focus from a box that it
  // opened, and no fling, after which a quick tap on a button is lost.
  drawing.addEventListener("touchstart", event => {
    if (event.cancelable) {
      event.preventDefault();
    }
  }, { passive: false });
  drawing.addEventListener("contextmenu", event => event.preventDefault());
  drawing.addEventListener("wheel", event => {
    if (event.ctrlKey) {
      event.preventDefault();
      paper.zoom(Math.exp(-event.deltaY / 300), ...spot(event));
    }
  }, { passive: false });
}
