/** Random bytes in hexadecimal. By the global generator: importing Node's own module costs every command a few ms. */
export const randomHex = (bytes: number): string =>
  Buffer.from(crypto.getRandomValues(new Uint8Array(bytes))).toString('hex');
