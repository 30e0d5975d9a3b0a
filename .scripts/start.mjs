// npm start: installs and builds what is missing, then serves the page. `--host` also serves the local network.
import { networkInterfaces } from 'node:os';
import { parseArgs } from 'node:util';
import { builtPage, ensureBuilt, ensurePackages, giveUp, requireNode } from './house.mjs';
import { prepare, servePage } from './serve.mjs';

requireNode();
const { host, port } = readArguments();
ensurePackages();
ensureBuilt();

const address = host ? '0.0.0.0' : '127.0.0.1';
const server = await servePage({ address, port });
await prepare();
const taken = server.address().port;
console.log(`\nSpanlife is at  http://localhost:${taken}/`);
if (host) for (const name of networkNames()) console.log(`and, for others on this network, at  http://${name}:${taken}/`);
console.log(`The page is also one file, which opens by double click:\n  ${builtPage}`);
console.log('Ctrl+C ends it.');
for (const signal of ['SIGINT', 'SIGTERM']) {
  process.on(signal, () => {
    server.close();
    server.closeAllConnections();
  });
}

function readArguments() {
  const usage = 'Usage: npm start [-- [--host] [--port NUMBER]]\n  --host  serve the local network too, not only this computer';
  try {
    const { values } = parseArgs({ options: { host: { type: 'boolean', default: false }, port: { type: 'string' } } });
    const stated = values.port ?? process.env.PORT ?? '4173';
    const number = Number(stated);
    if (!Number.isInteger(number) || number < 0 || number > 65535) throw new Error(`${stated} is not a port number (0 to 65535).`);
    return { host: values.host, port: number };
  } catch (error) {
    return giveUp(`${error.message}\n${usage}`);
  }
}

function networkNames() {
  return Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter((entry) => entry.family === 'IPv4' && !entry.internal)
    .map((entry) => entry.address);
}
