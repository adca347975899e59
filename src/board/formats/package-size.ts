/** Body sizes that stand in a package's name. */

export interface NamedSize {
  readonly widthMm: number
  readonly lengthMm: number
  readonly heightMm: number | undefined
}

/** Chip parts by hundredths of an inch, in mm along and across. Common practice, no source. */
const CHIPS: Readonly<Record<string, readonly [number, number]>> = {
  '0201': [0.6, 0.3],
  '0402': [1, 0.5],
  '0603': [1.6, 0.8],
  '0805': [2, 1.25],
  '1206': [3.2, 1.6],
  '1210': [3.2, 2.5],
  '1812': [4.5, 3.2],
  '2010': [5, 2.5],
  '2512': [6.3, 3.2],
}

const LARGEST_MM = 100

/**
 * The body that a name tells, along x and y at no turn. Read are: IPC-7351B names (2010) of chips and ball grids, such as
 * `CAPC1608X55N` in tenths and `BGA180C75P14X12_1400X1200X120` in hundredths of a mm; metric chip codes (`3216Metric`);
 * a size in mm (`3.9x4.9mm`); chips by hundredths of an inch (`R0805`).
 */
export function sizeInName(name: string): NamedSize | undefined {
  return checked(chipOfStandard(name) ?? gridOfStandard(name) ?? metricChip(name) ?? sizeInMm(name) ?? inchChip(name))
}

function checked(size: NamedSize | undefined): NamedSize | undefined {
  if (size === undefined || !(size.widthMm > 0.1) || !(size.lengthMm > 0.1)) return undefined
  return Math.max(size.widthMm, size.lengthMm) <= LARGEST_MM ? size : undefined
}

function chipOfStandard(name: string): NamedSize | undefined {
  const found = /^(?:RES|CAP|IND|FER|DIO|LED)C(\d{2})(\d{2})X(\d{2,3})/i.exec(name)
  return found === null ? undefined : sized(found, 10, 100)
}

function gridOfStandard(name: string): NamedSize | undefined {
  const found = /^[A-Z]*BGA\d+C\d+P\d+X\d+_(\d{2,5})X(\d{2,5})X(\d{2,4})/i.exec(name)
  return found === null ? undefined : sized(found, 100, 100)
}

const sized = (found: RegExpExecArray, perMm: number, heightPerMm: number): NamedSize => ({
  widthMm: Number(found[1]) / perMm,
  lengthMm: Number(found[2]) / perMm,
  heightMm: Number(found[3]) / heightPerMm,
})

function metricChip(name: string): NamedSize | undefined {
  const found = /(?:^|\D)(\d{2})(\d{2})Metric/i.exec(name)
  return found === null
    ? undefined
    : { widthMm: Number(found[1]) / 10, lengthMm: Number(found[2]) / 10, heightMm: undefined }
}

/** A size of a pad, a pitch or a row is none of the body. */
function sizeInMm(name: string): NamedSize | undefined {
  const found = /(?:^|[_-])(\d{1,2}(?:\.\d+)?)x(\d{1,2}(?:\.\d+)?)(?:x\d{1,2}(?:\.\d+)?)?mm(?:_|-|$)/i.exec(name)
  return found === null ? undefined : { widthMm: Number(found[1]), lengthMm: Number(found[2]), heightMm: undefined }
}

function inchChip(name: string): NamedSize | undefined {
  const code = /(?:^|[^\d.])(0201|0402|0603|0805|1206|1210|1812|2010|2512)(?:\D|$)/.exec(name)?.[1]
  const size = code === undefined ? undefined : CHIPS[code]
  return size === undefined ? undefined : { widthMm: size[0], lengthMm: size[1], heightMm: undefined }
}
