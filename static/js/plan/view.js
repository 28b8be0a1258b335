// @ts-check
/** How the plan lies on the paper: y up on plan is up on paper; zoomed and moved under the fingers. */

const CLOSEST = 1.2; // px a mm: a joist is as wide as a thumb
const MARGIN = { left: 96, right: 62, top: 58, bottom: 84 };
const NARROW_MARGIN = { left: 46, right: 46, top: 38, bottom: 34 };
const NARROW_PX = 600;

export class View {
  constructor() {
    this.width = 800;
    this.height = 600;
    this.scale = 0.06; // px a mm
    this.x = 0; // where the datum stands on the paper [px]
    this.y = 0;
    this.isWhole = true;
  }

  /** @param {[number, number]} point [mm] @returns {[number, number]} [px] */
  at([x, y]) {
    return [this.x + x * this.scale, this.y - y * this.scale];
  }

  /** @param {number} px @param {number} py @returns {[number, number]} [mm] */
  under(px, py) {
    return [(px - this.x) / this.scale, (this.y - py) / this.scale];
  }

  /** @param {number} px @returns {number} how much that is on plan [mm] */
  mm(px) {
    return px / this.scale;
  }

  /** @returns {boolean} whether there is no room for more than the sizes of the loft and what is chosen */
  get isNarrow() {
    return this.width < NARROW_PX;
  }

  /** Show a whole shape with room for its dimensions. @param {import("./shapes.js").Bounds} bounds */
  showWhole(bounds) {
    const margin = this.isNarrow ? NARROW_MARGIN : MARGIN;
    const room = {
      width: Math.max(50, this.width - margin.left - margin.right),
      height: Math.max(50, this.height - margin.top - margin.bottom),
    };
    const [length, depth] = [bounds.right - bounds.left || 1, bounds.back - bounds.front || 1];
    this.scale = Math.min(room.width / length, room.height / depth);
    this.x = margin.left + (room.width - length * this.scale) / 2 - bounds.left * this.scale;
    this.y = this.height - margin.bottom - (room.height - depth * this.scale) / 2 + bounds.front * this.scale;
    this.isWhole = true;
    this.least = this.scale * 0.4;
  }

  /** @param {number} times @param {number} px @param {number} py the point that stays [px] */
  zoom(times, px = this.width / 2, py = this.height / 2) {
    const wanted = Math.max(this.least || 0.005, Math.min(CLOSEST, this.scale * times));
    const [x, y] = this.under(px, py);
    this.scale = wanted;
    this.x = px - x * wanted;
    this.y = py + y * wanted;
    this.isWhole = false;
  }

  /** @param {number} dx [px] @param {number} dy [px] */
  move(dx, dy) {
    this.x += dx;
    this.y += dy;
    this.isWhole = false;
  }
}
