/** Make a photograph small before it is kept and sent: a loft has little signal and a tablet little room. */

const LONGEST_SIDE_PX = 2400;
const QUALITY = 0.85;

/**
 * Return the photograph upright and at most 2400 px long as JPEG; one that the browser cannot read as it is.
 *
 * @param {Blob} file
 * @returns {Promise<ArrayBuffer>}
 */
export async function shrink(file) {
  try {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, LONGEST_SIDE_PX / Math.max(picture.width, picture.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(picture.width * scale);
    canvas.height = Math.round(picture.height * scale);
    canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    const small = await new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", QUALITY));
    return await small.arrayBuffer();
  } catch {
    return file.arrayBuffer(); // the office reads formats that this browser does not
  }
}
