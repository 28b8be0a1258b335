/** Names and digests: what makes a change or a photograph the same one, wherever it turns up. */

/** Return the SHA-256 of text or bytes, as 64 hexadecimal digits. */
export async function sha256(content) {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Return a new name that no other tablet will ever choose. */
export function newName() {
  return crypto.randomUUID();
}
