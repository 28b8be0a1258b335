/**
 * What this tablet keeps until the office has it: surveys carried, changes and photographs not yet sent.
 *
 * One IndexedDB database. Nothing here is deleted but after the office's receipt, by a person's own
 * act on the page "On this tablet", or on signing out.
 */

import { wipeDrafts } from "./drafts.js";

const DATABASE = "eavesbook-tablet";
const VERSION = 1;
const STORES = {
  surveys: { keyPath: "number" },
  outbox: { keyPath: "place", autoIncrement: true },
  pictures: { keyPath: "digest" },
  facts: { keyPath: "name" },
};

let opened = null;

/** Tell whether this browser can keep work at all: that needs HTTPS, or the machine itself. */
export function canKeep() {
  return Boolean(window.isSecureContext && window.indexedDB && window.crypto?.subtle);
}

function database() {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, VERSION);
    request.onupgradeneeded = () => {
      for (const [name, options] of Object.entries(STORES)) {
        if (!request.result.objectStoreNames.contains(name)) {
          request.result.createObjectStore(name, options);
        }
      }
    };
    request.onsuccess = () => {
      request.result.onversionchange = () => {
        request.result.close();
        opened = null;
      };
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
  return opened;
}

/**
 * Run `work` in one transaction and return what it returns once everything in it is written.
 *
 * @param {string[]} names the stores that are touched
 * @param {"readonly"|"readwrite"} mode
 * @param {(stores: Record<string, IDBObjectStore>) => Promise<any>|any} work awaits nothing but requests
 *   of these stores, or the transaction ends under it
 */
export async function inTransaction(names, mode, work) {
  const transaction = (await database()).transaction(names, mode, { durability: "strict" });
  const stores = Object.fromEntries(names.map((name) => [name, transaction.objectStore(name)]));
  const written = new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = transaction.onerror = () => reject(transaction.error);
  });
  const [answer] = await Promise.all([work(stores), written]);
  return answer;
}

/** Wait for one request of a store. */
export function asked(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Read one record. */
export function read(store, key) {
  return inTransaction([store], "readonly", (stores) => asked(stores[store].get(key)));
}

/** Read every record of a store, in the order of its keys. */
export function readAll(store) {
  return inTransaction([store], "readonly", (stores) => asked(stores[store].getAll()));
}

/** Write one record. */
export function write(store, record) {
  return inTransaction([store], "readwrite", (stores) => asked(stores[store].put(record)));
}

/** Remove one record. */
export function remove(store, key) {
  return inTransaction([store], "readwrite", (stores) => asked(stores[store].delete(key)));
}

/** Forget everything: the person signed out. */
export async function wipe() {
  wipeDrafts();
  if (opened) {
    (await opened).close();
    opened = null;
  }
  await new Promise((resolve) => {
    const request = indexedDB.deleteDatabase(DATABASE);
    request.onsuccess = request.onerror = request.onblocked = resolve;
  });
}
