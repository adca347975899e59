/** The intake slip says what was taken down; how to reach the owner stands there and in no record. */
import { describe, expect, test } from 'vitest'
import {
  type Audience,
  caseSchema,
  codeWords,
  copyOf,
  intakeOf,
  packCase,
  recordHtml,
  recordOf,
  unpackCase,
} from '../../src/case/index.ts'
import { openFull } from '../support/recordCase.ts'

const opened = await openFull()
const pageFor = (audience: Audience, from = opened): string =>
  recordHtml(recordOf({ ...from, audience, today: '2026-03-20' })).replaceAll('\u00a0', ' ')

describe('the slip', () => {
  const slip = pageFor('intake')
  const { code, phone, mail } = intakeOf(opened.caseFile)
  test.each([
    codeWords(code ?? ''),
    'Harbour Twelve',
    'HT-550-1207',
    'broken: the screw beside the bracket',
    'bracket and two screws',
    'a fan was renewed in another shop',
    'a reading room by the harbour',
    phone,
    mail,
    '34.50',
    '28 March 2026',
    'A hose came loose over night.',
    'spill or leak',
  ])('says %s', (words) => {
    expect(slip).toContain(words)
  })

  test('says to what the owner agreed on which day, and to what not', () => {
    expect(slip).toContain('<dt>Diagnosis: open, look and measure</dt><dd>agreed on 14 March 2026</dd>')
    expect(slip).toContain('<dt>Heat: lift and refit parts</dt><dd>agreed on 17 March 2026</dd>')
    expect(slip).toContain('<dt>Data: keep name and contact</dt><dd>not agreed</dd>')
  })

  test('warns of power before anything was measured', () => {
    expect(slip).toMatch(/class="cautions".*Do not power the card yet/)
  })

  test('of a case without any intake says what was not noted, and has no code', async () => {
    const bare = await openFull(({ format, version, board }) => ({ format, version, board, title: 'Bare' }))
    const page = pageFor('intake', bare)
    expect(page).toContain('<dt>Serial number</dt><dd>not noted</dd>')
    expect(page).not.toContain('class="code"')
  })
})

test.each(['owner', 'technician'] as const)('the record for the %s holds neither phone nor mail', (audience) => {
  const { phone, mail } = intakeOf(opened.caseFile)
  const page = pageFor(audience)
  expect(page).not.toContain(phone)
  expect(page).not.toContain(mail)
})

test('an exported case carries what was taken down, contact too', () => {
  const packed = packCase({ ...opened.caseFile, photos: [], marks: [] }, new Map())
  const unpacked = packed.ok ? unpackCase(packed.value) : packed
  expect(unpacked.ok && unpacked.value.caseFile.intake).toEqual(opened.caseFile.intake)
})

test('a copy is another card: it has no code, serial number or consent of the first', () => {
  expect(copyOf(opened.caseFile, 'another').intake).toBeUndefined()
})

test('a code with a wrong check character is refused', () => {
  const { intake, ...rest } = opened.caseFile
  const code = (intake?.code ?? '').replace(/.$/, (last) => (last === 'A' ? 'C' : 'A'))
  expect(caseSchema.safeParse({ ...rest, intake: { ...intake, code } }).success).toBe(false)
})

test('photos that were taken at intake are on the slip, others are not', () => {
  const [photo] = opened.caseFile.photos
  if (photo === undefined) throw new Error('no photo in the full case')
  const photos = [{ ...photo, id: 'taken', name: 'lid.jpg', atIntake: true }, photo]
  const page = pageFor('intake', { ...opened, caseFile: { ...opened.caseFile, photos } })
  expect(page).toContain('1 photo, kept in the case.')
  expect(page).toContain('lid.jpg')
  expect(page).not.toContain(photo.name)
})
