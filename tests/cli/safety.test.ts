/** What the command line must not do to the machine it runs on: write over files, follow links, read devices, tell secrets. */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { nodeIo } from '../../src/cli/io.ts'
import { runCommandLine } from '../../src/cli/run.ts'

const folder = mkdtempSync(join(tmpdir(), 'liftmap-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const inFolder = (name: string): string => join(folder, name)

async function liftmap(...words: string[]): Promise<{ code: number; out: string; err: string }> {
  const run = { code: 0, out: '', err: '' }
  run.code = await runCommandLine(words, {
    ...nodeIo,
    out: (text) => {
      run.out += text
    },
    err: (text) => {
      run.err += text
    },
  })
  return run
}

const BOARD = 'boards/bowline-8.json'
const demo: object = { ...JSON.parse(readFileSync('demo-data/wept-fitting.case.json', 'utf8')), reports: [] }

function caseWith(name: string, change: object): string {
  const path = inFolder(name)
  writeFileSync(path, JSON.stringify({ ...demo, ...change }))
  return path
}

describe('writing', () => {
  test('a file that is there stays as it is without --force, and is written over with it', async () => {
    const out = inFolder('there.json')
    writeFileSync(out, 'mine')
    const refused = await liftmap('board', BOARD, '--out', out)
    expect([refused.code, readFileSync(out, 'utf8')]).toEqual([1, 'mine'])
    expect(refused.err).toMatch(/there already.*--force/)
    expect((await liftmap('board', BOARD, '--out', out, '--force')).code).toBe(0)
    expect(JSON.parse(readFileSync(out, 'utf8'))).toHaveProperty('name', 'bowline-8')
  })

  test('the file that was read is never written over, by whatever name', async () => {
    const input = inFolder('input.json')
    const text = readFileSync(BOARD, 'utf8')
    writeFileSync(input, text)
    for (const out of [input, join(folder, '.', 'input.json')]) {
      const { code, err } = await liftmap('board', input, '--out', out, '--force')
      expect([code, readFileSync(input, 'utf8') === text]).toEqual([1, true])
      expect(err).toContain('the file that was read')
    }
  })

  test.skipIf(process.platform === 'win32')('no link is followed, not even with --force', async () => {
    const target = inFolder('target.txt')
    writeFileSync(target, 'theirs')
    symlinkSync(target, inFolder('link.json'))
    symlinkSync(inFolder('nowhere.txt'), inFolder('dangling.json'))
    for (const link of ['link.json', 'dangling.json']) {
      const { code, err } = await liftmap('board', BOARD, '--out', inFolder(link), '--force')
      expect(code).toBe(1)
      expect(err).toContain('a link to another file')
    }
    expect(readFileSync(target, 'utf8')).toBe('theirs')
  })
})

describe('what a case names', () => {
  test.skipIf(process.platform === 'win32')('devices and pipes are refused at once', async () => {
    const pipe = inFolder('pipe')
    execFileSync('mkfifo', [pipe])
    for (const path of ['/dev/zero', pipe]) {
      const { code, err } = await liftmap('suspects', caseWith('device.case.json', { board: { path } }))
      expect(code).toBe(1)
      expect(err).toContain('a device or a pipe')
    }
  })

  test('a file that is no board is not quoted', async () => {
    const secret = inFolder('secret.txt')
    writeFileSync(secret, 'root:x:0:0:hidden')
    const { code, err } = await liftmap('suspects', caseWith('secret.case.json', { board: { path: secret } }))
    expect(code).toBe(1)
    expect(err).toMatch(/no JSON/)
    expect(err).not.toMatch(/root|hidden/)
  })
})

describe('odd characters', () => {
  test.each(['\u0001', '\ud800', '\ufffe'])(
    'a name with %j ends in a picture and records that can be read',
    async (odd) => {
      const board = { ...JSON.parse(readFileSync('boards/hitch-12.json', 'utf8')), name: `b${odd}d` }
      const path = caseWith('odd.case.json', { board: { inline: board }, title: `t${odd}e` })
      const picture = await liftmap('picture', path)
      expect([picture.code, picture.err]).toEqual([0, ''])
      // eslint-disable-next-line no-control-regex -- what XML 1.0 has no place for
      expect(picture.out).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Cs}/u)
      for (const reader of ['owner', 'technician']) {
        const record = await liftmap('record', path, '--for', reader)
        expect([record.code, record.err]).toEqual([0, ''])
      }
    },
  )
})
