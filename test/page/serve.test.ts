import { request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pageServer } from '../../src/cli/commands/page.js';

/** The page's server answers one path, one way of asking and its own name only. */

interface Got {
  readonly status: number;
  readonly headers: Record<string, unknown>;
  readonly text: string;
}

describe('the server of the page', () => {
  const server = pageServer(Buffer.from('<!doctype html>the page'));
  let port = 0;
  beforeAll(
    () =>
      new Promise<void>((done) =>
        server.listen(0, '127.0.0.1', () => {
          ({ port } = server.address() as AddressInfo);
          done();
        }),
      ),
  );
  afterAll(() => void server.close());

  const ask = (path: string, options: { method?: string; host?: string } = {}): Promise<Got> =>
    new Promise((done, fail) => {
      const { method = 'GET', host = `127.0.0.1:${port}` } = options;
      const call = request({ port, host: '127.0.0.1', path, method, headers: { host } }, (response) => {
        let text = '';
        response.on('data', (part) => {
          text += part;
        });
        response.on('end', () => done({ status: response.statusCode!, headers: response.headers, text }));
      });
      call.on('error', fail);
      call.end();
    });

  it('gives the page, with strict headers', async () => {
    const got = await ask('/');
    expect(got.status).toBe(200);
    expect(got.text).toContain('the page');
    expect(got.headers).toMatchObject({
      'content-type': 'text/html; charset=utf-8',
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
      'referrer-policy': 'no-referrer',
      'cross-origin-opener-policy': 'same-origin',
    });
    expect(server.address()).toMatchObject({ address: '127.0.0.1' });
  });

  it('refuses other paths, other methods and names that were rebound to this machine', async () => {
    expect((await ask('/../package.json')).status).toBe(404);
    expect((await ask('/favicon.ico')).status).toBe(404);
    expect((await ask('/', { method: 'POST' })).status).toBe(405);
    expect((await ask('/', { host: `evil.example:${port}` })).status).toBe(421);
    expect((await ask('/', { host: `localhost:${port}` })).status).toBe(200);
    expect((await ask('/', { method: 'HEAD' })).text).toBe('');
  });
});
