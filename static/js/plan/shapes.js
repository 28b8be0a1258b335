// @ts-check
/**
 * Shapes on plan: corners in mm, x from the left gable, y from the front eaves.
 *
 * @typedef {[number, number]} Point [mm, mm]
 * @typedef {{left: number, front: number, right: number, back: number}} Bounds [mm]
 */

/**
 * @param {number} left [mm] @param {number} front [mm] @param {number} length [mm] @param {number} depth [mm]
 * @returns {Point[]} its corners counter-clockwise from the left front
 */
export function rectangle(left, front, length, depth) {
  const right = left + length;
  const back = front + depth;
  return [[left, front], [right, front], [right, back], [left, back]];
}

/** @param {Point[]} polygon @returns {Bounds} */
export function boundsOf(polygon) {
  let left = Infinity, front = Infinity, right = -Infinity, back = -Infinity;
  for (const [x, y] of polygon) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    front = Math.min(front, y);
    back = Math.max(back, y);
  }
  return { left, front, right, back };
}

/** @param {Point[]} polygon @returns {[Point, Point][]} its sides in order */
export function sidesOf(polygon) {
  return polygon.map((corner, place) => [corner, polygon[(place + 1) % polygon.length]]);
}

/** @param {Point[]} polygon @returns {number} twice its area, positive if counter-clockwise [mm2] */
export function turnOf(polygon) {
  return sidesOf(polygon).reduce((sum, [[ax, ay], [bx, by]]) => sum + ax * by - bx * ay, 0);
}

/** @param {Point[]} polygon @param {Point} point @returns {boolean} */
export function contains(polygon, [x, y]) {
  let inside = false;
  for (const [[ax, ay], [bx, by]] of sidesOf(polygon)) {
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) {
      inside = !inside;
    }
  }
  return inside;
}

/** @param {Point[]} polygon @param {Point} point @returns {number} distance to the nearest side [mm] */
export function distanceToSides(polygon, [x, y]) {
  return Math.min(...sidesOf(polygon).map(([[ax, ay], [bx, by]]) => {
    const [dx, dy] = [bx - ax, by - ay];
    const along = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
    return Math.hypot(x - ax - along * dx, y - ay - along * dy);
  }));
}

/** @param {Point[]} polygon @returns {boolean} whether every side is level or upright */
export function isRightAngled(polygon) {
  return sidesOf(polygon).every(([[ax, ay], [bx, by]]) => ax === bx || ay === by);
}

/** @param {Point[]} polygon @returns {boolean} whether it is one upright rectangle */
export function isRectangle(polygon) {
  return polygon.length === 4 && isRightAngled(polygon);
}

/** @param {Point[]} polygon @returns {Point[]} without repeated corners and corners in line, counter-clockwise */
export function tidied(polygon) {
  let kept = polygon.filter(([x, y], place) => {
    const [px, py] = polygon[(place + polygon.length - 1) % polygon.length];
    return x !== px || y !== py;
  });
  kept = kept.filter(([x, y], place) => {
    const [ax, ay] = kept[(place + kept.length - 1) % kept.length];
    const [bx, by] = kept[(place + 1) % kept.length];
    return (x - ax) * (by - y) !== (y - ay) * (bx - x);
  });
  return turnOf(kept) < 0 ? kept.reverse() : kept;
}

/** @param {Point[]} polygon @param {number} dx [mm] @param {number} dy [mm] @returns {Point[]} */
export function shifted(polygon, dx, dy) {
  return polygon.map(([x, y]) => [x + dx, y + dy]);
}

/**
 * Move a corner; with right angles held, its two neighbours slide along with it.
 *
 * @param {Point[]} polygon @param {number} place which corner @param {Point} to
 * @param {boolean} rightAngles @returns {Point[]}
 */
export function withCornerMoved(polygon, place, to, rightAngles) {
  const moved = /** @type {Point[]} */ (polygon.map(corner => [...corner]));
  const count = polygon.length;
  if (rightAngles && isRightAngled(polygon)) {
    const before = (place + count - 1) % count;
    const after = (place + 1) % count;
    const level = polygon[before][1] === polygon[place][1];
    moved[before][level ? 1 : 0] = to[level ? 1 : 0];
    moved[after][level ? 0 : 1] = to[level ? 0 : 1];
  }
  moved[place] = [...to];
  return moved;
}

/**
 * Add a corner in the middle of a side; with right angles held it is a step, half the side set in.
 *
 * @param {Point[]} polygon @param {number} side which side @param {number} stepMm how far [mm]
 * @param {boolean} rightAngles @returns {Point[]}
 */
export function withCornerAdded(polygon, side, stepMm, rightAngles) {
  const [a, b] = sidesOf(polygon)[side];
  const middle = /** @type {Point} */ ([0, 1].map(axis => Math.round((a[axis] + b[axis]) / 100) * 50));
  if (!rightAngles || !isRightAngled(polygon)) {
    return [...polygon.slice(0, side + 1), middle, ...polygon.slice(side + 1)];
  }
  const level = a[1] === b[1];
  const inward = (level ? Math.sign(b[0] - a[0]) : -Math.sign(b[1] - a[1])) * Math.sign(turnOf(polygon));
  const stepped = /** @type {Point[]} */ (polygon.map(corner => [...corner]));
  const next = (side + 1) % polygon.length;
  stepped[next][level ? 1 : 0] += inward * stepMm;
  const low = /** @type {Point} */ (level ? [middle[0], a[1]] : [a[0], middle[1]]);
  const high = /** @type {Point} */ (level ? [middle[0], stepped[next][1]] : [stepped[next][0], middle[1]]);
  return [...stepped.slice(0, side + 1), low, high, ...stepped.slice(side + 1)];
}

/**
 * Give a side another length by moving the side after it; only for right-angled shapes.
 *
 * @param {Point[]} polygon @param {number} side @param {number} lengthMm [mm] @returns {Point[]}
 */
export function withSideOf(polygon, side, lengthMm) {
  const [a, b] = sidesOf(polygon)[side];
  const axis = a[1] === b[1] ? 0 : 1;
  const to = /** @type {Point} */ ([...b]);
  to[axis] = a[axis] + Math.sign(b[axis] - a[axis]) * lengthMm;
  return withCornerMoved(polygon, (side + 1) % polygon.length, to, true);
}

/**
 * Find the largest rectangle round a point inside a right-angled outline, clear of what is taken, grown along
 * one axis first.
 *
 * @param {Point[]} outline @param {Bounds[]} taken @param {Point} point @param {0 | 1} first 0 grows along x
 * @returns {Bounds | null}
 */
export function rectangleRound(outline, taken, point, first) {
  const xs = [...new Set([...outline.map(([x]) => x), ...taken.flatMap(box => [box.left, box.right])])];
  const ys = [...new Set([...outline.map(([, y]) => y), ...taken.flatMap(box => [box.front, box.back])])];
  const cuts = [xs.sort((a, b) => a - b), ys.sort((a, b) => a - b)];
  const cell = cuts.map((each, axis) => each.findIndex((low, at) => low <= point[axis] && point[axis] < each[at + 1]));
  /** @param {number} column @param {number} row */
  const isFree = (column, row) => {
    if (column < 0 || row < 0 || column >= xs.length - 1 || row >= ys.length - 1) {
      return false;
    }
    const middle = /** @type {Point} */ ([(xs[column] + xs[column + 1]) / 2, (ys[row] + ys[row + 1]) / 2]);
    return contains(outline, middle) && !taken.some(box => box.left < middle[0] && middle[0] < box.right
      && box.front < middle[1] && middle[1] < box.back);
  };
  if (!isFree(cell[0], cell[1])) {
    return null;
  }
  const low = [...cell];
  const high = [...cell];
  for (const axis of [first, 1 - first]) {
    for (const [end, step] of /** @type {[number[], number][]} */ ([[low, -1], [high, 1]])) {
      while (isFreeAll(end[axis] + step, axis)) {
        end[axis] += step;
      }
    }
  }
  return { left: xs[low[0]], front: ys[low[1]], right: xs[high[0] + 1], back: ys[high[1] + 1] };

  /** @param {number} at @param {number} axis */
  function isFreeAll(at, axis) {
    for (let across = low[1 - axis]; across <= high[1 - axis]; across += 1) {
      if (!(axis === 0 ? isFree(at, across) : isFree(across, at))) {
        return false;
      }
    }
    return true;
  }
}
