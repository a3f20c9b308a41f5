import type { Answer, AskKind, Asks } from '../worker/asks.js';
import type { Folder } from '../worker/folder.js';
import type { Desk } from './desk.js';

let desk: Desk | null = null;
let turn = 0;

export const askAt = (steady: Desk): void => {
  desk = steady;
};

/** One question that no later one takes the place of. */
export async function askOnce<K extends AskKind>(
  kind: K,
  folder: Folder,
  ask: Asks[K]['ask'],
): Promise<Answer<Asks[K]['answer']>> {
  const answer = await desk!.ask(`once ${turn++}`, kind, folder, ask);
  return answer!;
}
