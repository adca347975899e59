/** Serves the files of a folder on a port of this machine, for a test. */
import { createServer, type Server } from 'node:http'
import { existsSync, readFileSync, statSync } from 'node:fs'
import { extname, join } from 'node:path'

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
}

export async function serveFolder(folder: string): Promise<{ readonly address: string; readonly server: Server }> {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://here')
    const path = join(folder, pathname.endsWith('/') ? `${pathname}index.html` : pathname)
    if (!existsSync(path) || !statSync(path).isFile()) {
      response.writeHead(404).end()
      return
    }
    response
      .writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' })
      .end(readFileSync(path))
  })
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve)
  })
  const at = server.address()
  if (at === null || typeof at === 'string') throw new Error('no port')
  return { address: `http://127.0.0.1:${at.port}/`, server }
}
