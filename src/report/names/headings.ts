/** What people call the columns of a report: headings, keys and the words beside a number, to roles. */
import { type ColumnRole, columnRoleSchema } from '../recipe.ts'

/** Words for each role in some languages, the telling ones first; a heading of several words is read word by word. No heading speaks of the others. */
const WORDS = {
  difference:
    'xor diff difference differenz différence diferencia differenza mask errormask errmask xormask syndrome delta flipped failbits errorbits errbits разница 差异',
  bits: 'bits dqs badbits failingbits pins leitungen',
  end: 'end last ende fin bis until',
  address:
    'address addr adr addresses adresse adressen dirección direccion indirizzo endereço endereco адрес 地址 offset location loc physical paddr physaddr pa at bei from start @',
  expected:
    'expected expect exp wrote written write wr pattern pat should good golden instead want wanted reference erwartet soll geschrieben attendu écrit esperado escrito atteso scritto ожидалось записано 期望 预期 写入',
  actual:
    'actual act read got found bad received observed rd readback back is was saw returned gave have gelesen ist lu obtenu leído leido lido letto прочитано 实际 读取 读出',
  count:
    'count cnt errors errs err error errorcount hits fails failures failed failing mismatches times occurrences fehler fehlerzahl anzahl erreurs erreur nombre errores fallos errori erros ошибок ошибки 错误 错误数 n qty',
  tested:
    'tested checked reads words samples covered total geprüft getestet testés lus probados testati проверено 测试',
  status: 'status result state verdict outcome ergebnis état résultat estado resultado stato esito статус 状态 结果',
  lane: 'lane byte bytelane lanes edc octet spur 字节',
  bit: 'bit dq pin bitno bitnumber',
  channel: 'channel ch chan subchannel kanal canal canale канал 通道',
  part: 'part chip ref refdes designator package device component ic die memory mem baustein bauteil puce composant componente componenti чип 芯片 颗粒',
  packages: undefined,
  ignore: undefined,
} as const satisfies Record<ColumnRole, string | undefined>

const TELLING_FIRST = columnRoleSchema.array().parse(Object.keys(WORDS))

const ROLE_OF_WORD = new Map<string, ColumnRole>(
  TELLING_FIRST.flatMap((role) => (WORDS[role]?.split(' ') ?? []).map((word) => [word, role] as const)),
)

/** Headings that say that a column is none of all this: times, temperatures, running numbers, cells of the array. */
const ELSE = new Set(
  'time timestamp t date zeit uhrzeit datum heure temps hora tiempo temp temperature temperatur température temperatura deg c pass passes loop iteration iter cycle run durchgang lauf passe pasada no nr num núm index id idx # thread warp block sm seed test step phase element voltage volt v mv mhz clock freq power w row col column bank rank zeile spalte line pct percent rate ratio share ms sec seconds duration elapsed size kb mb gb gpu slot board level severity x y'.split(
    ' ',
  ),
)

/** The role that a heading speaks of, or undefined. `Error Address (hex)` is an address, `XOR mask` a difference. */
export function roleOfHeading(heading: string): ColumnRole | undefined {
  const words = wordsOf(heading)
  if (wordBytesOf(heading) !== undefined && isIndex(words)) return 'address'
  const whole = ROLE_OF_WORD.get(words.join(''))
  if (whole !== undefined) return whole
  const roles = words.flatMap((word) => ROLE_OF_WORD.get(word) ?? [])
  return TELLING_FIRST.find((role) => roles.includes(role))
}

/** The heading tells of something that no reading needs. */
export function isOtherHeading(heading: string): boolean {
  const words = wordsOf(heading)
  const [last] = words.slice(-1)
  if (heading.trim() === '#') return true
  return roleOfHeading(heading) === undefined && words.some((word) => ELSE.has(word)) && last !== undefined
}

const WORD_BYTES: readonly (readonly [RegExp, number | 'own'])[] = [
  [/^(?:qwords?|quadwords?|quads?)$/, 8],
  [/^(?:dwords?|doublewords?|longwords?)$/, 4],
  [/^(?:words?|wort|mots?)$/, 'own'],
]

/** Bytes of the words that a heading counts in: of a plain word, its own width as the rows show it. */
export function wordBytesOf(heading: string): number | 'own' | undefined {
  const words = wordsOf(heading)
  return WORD_BYTES.find(([pattern]) => words.some((word) => pattern.test(word)))?.[1]
}

const INDEX = new Set('index idx no nr num number offset address addr adr'.split(' '))
/** `word index`, `dword`, `address (words)`; `words` alone tells how many. */
const isIndex = (words: readonly string[]): boolean =>
  words.some((word) => INDEX.has(word)) || (words.length === 1 && /^(?:qword|dword|quadword)$/.test(words[0] ?? ''))

/** The heading says that addresses count something larger than bytes. */
export const unitOfHeading = (heading: string): 'bytes' | 'larger' =>
  /(?:word|dword|qword|index|idx|block|page|[kmg]i?b\b|line|sector|chunk|cell)/i.test(heading) ? 'larger' : 'bytes'

/** `readBack_value` is `read back value`. */
function wordsOf(heading: string): string[] {
  return heading
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}@]+/u)
    .filter((word) => word !== '')
}
