/** Send a photograph's bytes piece by piece, from where the office has them. */

import { read } from "./store.js";
import { ask } from "./requests.js";

const PIECE_BYTES = 256 * 1024;

/** Send the photograph that an item names by digest; the answer has status 200 once the office has it all. */
export async function sendPicture(item) {
  const digest = item.says.digest;
  const picture = await read("pictures", digest);
  if (!picture) {
    return { status: 410, told: null, words: "This photograph is no longer on the tablet." };
  }
  const address = `/surveys/${item.survey}/photographs/${digest}/`;
  let answer = await ask(address);
  while (answer.status === 200 && !answer.told.whole) {
    answer = await sendPiece(address, picture.bytes, answer.told.have);
    if (answer.status === 409 && Number.isInteger(answer.told?.have)) answer.status = 200;
  }
  return answer;
}

function sendPiece(address, bytes, from) {
  return ask(address, {
    method: "PUT",
    body: bytes.slice(from, from + PIECE_BYTES),
    headers: {
      "Content-Type": "application/octet-stream",
      "Upload-Offset": String(from),
      "Upload-Length": String(bytes.byteLength),
    },
  });
}
