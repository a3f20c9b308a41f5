import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { refuse } from '../../core/problems/problem.js';
import type { ExitCode } from '../run.js';
import { shippedFile, shippedText } from '../shipped.js';
import type { Call } from '../verb.js';
import { printJson } from './view.js';
import { wholeNumber } from './whole-number.js';

const LOOPBACK = '127.0.0.1';
const LAST_PORT = 65_535;

const PAGE = 'page/bench.html';

/** Serves the bench page on this machine alone until it is stopped, and prints where. */
export async function pageVerb(call: Call): Promise<ExitCode> {
  const port = wholeNumber(call, 'port', LAST_PORT) ?? 0;
  const file = shippedFile(PAGE);
  const server = pageServer(Buffer.from(shippedText(PAGE)));
  const address = await listening(server, port);
  const url = `http://${LOOPBACK}:${address.port}/`;
  if (call.options['json'] === true) printJson(call.io, { format: 'pourwright.page/1', url, file });
  else call.io.out(`The bench is at ${url}\nIt also opens straight from disk: ${file}\nCtrl-C stops it.\n`);
  await stopped(server);
  return 0;
}

const HEADERS = {
  'Content-Type': 'text/html; charset=utf-8',
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=(), payment=(), usb=()',
  'Cache-Control': 'no-store',
} as const;

/** A server of one page: no other path, no other method, no other name for this machine (against rebound names). */
export function pageServer(page: Buffer): Server {
  const server = createServer((request: IncomingMessage, response: ServerResponse) => {
    const end = (status: number, text: string): void => {
      response.writeHead(status, { ...HEADERS, 'Content-Type': 'text/plain; charset=utf-8' });
      response.end(text);
    };
    const { port } = server.address() as AddressInfo;
    const { host } = request.headers;
    if (host !== `${LOOPBACK}:${port}` && host !== `localhost:${port}`)
      return end(421, 'This page has another name.\n');
    if (request.method !== 'GET' && request.method !== 'HEAD') return end(405, 'Only reading is possible here.\n');
    if (request.url !== '/') return end(404, 'There is only one page here: /\n');
    response.writeHead(200, { ...HEADERS, 'Content-Length': page.length });
    response.end(request.method === 'HEAD' ? undefined : page);
  });
  return server;
}

const listening = (server: Server, port: number): Promise<AddressInfo> =>
  new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EADDRINUSE' && error.code !== 'EACCES') return reject(error);
      try {
        refuse({
          code: 'option-invalid',
          where: { path: '--port' },
          found: String(port),
          expected: 'a port that is free',
        });
      } catch (refused) {
        reject(refused);
      }
    });
    server.listen(port, LOOPBACK, () => resolve(server.address() as AddressInfo));
  });

const stopped = (server: Server): Promise<void> =>
  new Promise((resolve) => {
    const stop = (): void => {
      server.closeAllConnections();
      server.close(() => resolve());
    };
    process.once('SIGINT', stop);
    process.once('SIGTERM', stop);
  });
