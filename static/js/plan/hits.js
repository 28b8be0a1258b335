// @ts-check
/** What lies under a finger: a hold of what is chosen first, then the smallest thing that is near enough. */

import { REACH_PX } from "./handles.js";
import { boundsOf, contains, distanceToSides, turnOf } from "./shapes.js";

/** @typedef {import("./read.js").Plan} Plan */
/** @typedef {import("./read.js").Thing} Thing */
/** @typedef {import("./view.js").View} View */

const WALL_PX = 14;
const SMALL_PX = 24;

/** @param {import("./handles.js").Handle[]} handles @param {Thing} thing @param {View} view
 * @param {number} px @param {number} py */
export function handleUnder(handles, thing, view, px, py) {
  let nearest = null;
  let off = REACH_PX;
  for (const handle of handles) {
    const away = Math.hypot(handle.px[0] - px, handle.px[1] - py);
    if (away <= off && !(nearest && nearest.sign === "corner" && handle.sign !== "corner")) {
      nearest = handle;
      off = away;
    } else if (away <= REACH_PX && nearest && nearest.sign !== "corner" && handle.sign === "corner") {
      nearest = handle;
      off = away;
    }
  }
  if (nearest && thing.polygon && thing.kind !== "outline" && thing.kind !== "joists") {
    const box = boundsOf(thing.polygon);
    const [mx, my] = view.at([(box.left + box.right) / 2, (box.front + box.back) / 2]);
    return Math.hypot(mx - px, my - py) < off ? null : nearest;
  }
  return nearest;
}

/**
 * List the things under a point, that which is most likely meant first.
 *
 * @param {Plan} plan @param {View} view @param {number} px @param {number} py @returns {Thing[]}
 */
export function thingsUnder(plan, view, px, py) {
  const point = view.under(px, py);
  /** @type {{thing: Thing, rank: number}[]} */
  const found = [];
  for (const thing of plan.things) {
    if (!thing.polygon) {
      continue;
    }
    const inside = contains(thing.polygon, point);
    const offPx = distanceToSides(thing.polygon, point) * view.scale;
    const area = Math.abs(turnOf(thing.polygon));
    if (thing.kind === "outline") {
      if (offPx <= WALL_PX || (!inside && offPx <= SMALL_PX)) {
        found.push({ thing, rank: 2e15 });
      }
    } else if (thing.kind === "joists") {
      if (inside) {
        found.push({ thing, rank: 1e15 + area });
      }
    } else if (inside || (isSmall(thing, view) && offPx <= SMALL_PX)) {
      found.push({ thing, rank: (inside ? 0 : 1e5 * offPx) + area });
    }
  }
  const nearWall = found.find(({ thing }) => thing.kind === "outline");
  if (nearWall && found.every(({ thing }) => thing.kind === "outline" || thing.kind === "joists")) {
    nearWall.rank = 0;
  }
  return found.sort((a, b) => a.rank - b.rank).map(({ thing }) => thing);
}

/** @param {Thing} thing @param {View} view @returns {boolean} whether it is less than a fingertip across */
function isSmall(thing, view) {
  const box = boundsOf(thing.polygon || []);
  return Math.min(box.right - box.left, box.back - box.front) * view.scale < 2 * SMALL_PX;
}
