/**
 * Rails of imported layouts by their circuit: what is one, what makes it, what it feeds. Small circuits by hand, and real
 * boards with all pin names taken away, held against what their pin names say.
 */
import { readFile } from 'node:fs/promises'
import { describe, expect, it } from 'vitest'
import { boardRemarks, loadBoard, type Rail } from '../../src/board/index.ts'
import { footprintText, imported, layoutText, rectangleText } from '../support/kicad-text.ts'
import { kicadTruth, packagedFile } from '../support/kicad-truth.ts'

const FETCH_MS = 300_000

/** A part whose pads lie on these nets, one after the other, without names or types. */
const part = (ref: string, nets: readonly string[], value = ''): string =>
  footprintText(
    ref,
    nets.map((net, k) => ({
      number: String(k + 1),
      x: (k % 4) * 1.2,
      y: Math.floor(k / 4) * 1.2,
      ...(net === '' ? {} : { net }),
    })),
    { value },
  )
const capacitors = (from: number, count: number, net: string, value = '100nF'): string[] =>
  Array.from({ length: count }, (_, k) => part(`C${from + k}`, [net, 'GND'], value))
/** A chip of many signals, which a header takes up, that draws from the nets. */
function load(ref: string, supplies: readonly string[]): string {
  const signals = Array.from({ length: 12 }, (_, k) => `/${ref}_IO${k}`)
  return `${part(ref, [...supplies, 'GND', ...signals])}\n${part(`J10${ref.slice(1)}`, signals)}`
}

async function railsOf(forms: readonly string[]): Promise<ReadonlyMap<string, Rail>> {
  const { description } = await imported(layoutText(forms))
  expect(loadBoard(description).ok).toBe(true)
  return new Map(description.rails.map((rail) => [rail.name, rail]))
}

const stagesOf = (rails: ReadonlyMap<string, Rail>): Record<string, string[]> =>
  Object.fromEntries([...rails].flatMap(([name, { stages }]) => (stages.length > 0 ? [[name, stages]] : [])))

describe('a rail', () => {
  it('is a net with capacitors to ground, and its name gives volts where it can', async () => {
    const names = ['P1.35V', 'VDD_1V35', '+1V5', 'VTT', '1V8_AUX', 'V3.3', '/ddr/D1V2', 'VDDQ']
    const rails = await railsOf(
      names.flatMap((net, k) => [load(`U${k + 1}`, [net]), ...capacitors(10 * k + 1, 2, net)]),
    )
    expect([...rails.values()].map(({ name, nominalV }) => [name, nominalV])).toEqual([
      ['P1.35V', 1.35],
      ['VDD_1V35', 1.35],
      ['+1V5', 1.5],
      ['VTT', undefined],
      ['1V8_AUX', 1.8],
      ['V3.3', 3.3],
      ['/ddr/D1V2', 1.2],
      ['VDDQ', undefined],
    ])
  })

  it('may have any name where many capacitors hold it and a chip hangs on it', async () => {
    const rails = await railsOf([load('U1', ['/HUGO']), ...capacitors(1, 5, '/HUGO')])
    expect([...rails.keys()]).toEqual(['/HUGO'])
  })

  it('is no enable, sense line, switch node, power good or reference, whatever volts they name', async () => {
    const signals = ['3V3_EN', 'EN_1V8', 'VDD_CORE_SENSE', '5V_PG', 'VDD_ENABLE', 'VCC_ON', '+1V2_FB', 'VREF_1V5']
    const forms = signals.flatMap((net, k) => [
      load(`U${k + 1}`, [net]),
      part(`R${k + 1}`, [net, '/X'], '10k'),
      ...capacitors(k + 1, 1, net),
    ])
    const node = [part('U20', ['5V0', 'GND', '5V0_LX', '/FB', '/E']), load('U21', ['/OUT', '5V0'])]
    const coil = [part('L1', ['5V0_LX', '/OUT'], '2.2uH'), ...capacitors(30, 2, '/OUT'), ...capacitors(40, 2, '5V0')]
    expect([...(await railsOf([...forms, ...node, ...coil])).keys()].toSorted()).toEqual(['/OUT', '5V0'])
  })

  it('is no reference between two resistors, and no load of a crystal', async () => {
    const divided = [
      part('R1', ['VDD', '/HALF'], '1k'),
      part('R2', ['/HALF', 'GND'], '1k'),
      ...capacitors(1, 3, '/HALF'),
    ]
    const crystal = ['/XI', '/XO'].flatMap((net, k) => capacitors(20 + 2 * k, 2, net, '12pF'))
    const chips = [load('U1', ['VDD', '/HALF', '/XI', '/XO']), load('U2', ['VDD', '/HALF', '/XI', '/XO'])]
    expect([...(await railsOf([...divided, ...crystal, ...chips, ...capacitors(30, 4, 'VDD')])).keys()]).toEqual([
      'VDD',
    ])
  })

  it('goes on behind a ferrite, and what it comes from is said', async () => {
    const forms = [
      load('U1', ['+1V8', '/quiet']),
      ...capacitors(1, 4, '+1V8'),
      part('FB1', ['+1V8', '/quiet'], '600R@100MHz'),
      ...capacitors(9, 1, '/quiet'),
    ]
    const { description, untold } = await imported(layoutText(forms))
    expect(description.rails.map(({ name }) => name).toSorted()).toEqual(['+1V8', '/quiet'])
    expect(untold.join('\n')).toContain('/quiet from +1V8 through FB1')
    expect(description.parts.find(({ ref }) => ref === 'FB1')?.kind).not.toBe('inductor')
  })

  it('has a ground whatever it is called: the net that most capacitors share', async () => {
    const forms = [load('U1', ['+3V3', '+1V8']), ...capacitors(1, 3, '+3V3'), ...capacitors(9, 3, '+1V8')]
    const rails = await railsOf(forms.map((form) => form.replaceAll('"GND"', '"/masse"')))
    expect([...rails.keys()]).toEqual(['+3V3', '+1V8'])
  })
})

describe('what makes a rail, without any pin name', () => {
  const input = [part('J1', ['/in', 'GND']), ...capacitors(1, 2, '/in', '10uF')]

  it('is the chip before the coil, which the rail does not feed', async () => {
    const buck = [part('U1', ['/in', 'GND', '/n1', '/fb', '/in']), part('L1', ['/n1', 'VDD_CORE'], '1uH')]
    const divider = [part('R1', ['VDD_CORE', '/fb'], '10k'), part('R2', ['/fb', 'GND'], '10k')]
    const rails = await railsOf([
      ...input,
      ...buck,
      ...divider,
      ...capacitors(10, 3, 'VDD_CORE', '22uF'),
      load('U2', ['VDD_CORE']),
    ])
    expect(rails.get('VDD_CORE')).toMatchObject({ stages: ['U1'], feeds: ['U2'] })
  })

  it('is the chip before the diode where the coil hangs on the input', async () => {
    const boost = [
      part('U1', ['/in', 'GND', '/n1', '/fb']),
      part('L1', ['/in', '/n1'], '10uH'),
      part('D1', ['/n1', '/high']),
    ]
    const rails = await railsOf([...input, ...boost, ...capacitors(10, 2, '/high', '10uF'), load('U2', ['/high'])])
    expect(stagesOf(rails)).toEqual({ '/high': ['U1'] })
  })

  it('are transistors and the controller that drives them', async () => {
    const bridge = [part('Q1', ['/in', '/hg', '/n1']), part('Q2', ['/n1', '/lg', 'GND'])]
    const control = part('U1', ['/in', 'GND', '/hg', '/lg', '/n1', '/fb'])
    const forms = [
      ...input,
      ...bridge,
      control,
      part('L1', ['/n1', 'VDD'], '0.47uH'),
      ...capacitors(10, 3, 'VDD', '100uF'),
      load('U2', ['VDD']),
    ]
    const { description } = await imported(layoutText(forms))
    expect(description.rails.find(({ name }) => name === 'VDD')?.stages.toSorted()).toEqual(['Q1', 'Q2', 'U1'])
    expect(
      description.parts.flatMap(({ ref, kind }) =>
        kind === 'controller' || kind === 'power-stage' ? [[ref, kind]] : [],
      ),
    ).toEqual([
      ['Q1', 'power-stage'],
      ['Q2', 'power-stage'],
      ['U1', 'controller'],
    ])
  })

  it('is one chip with several coils, and it is a controller', async () => {
    const coils = ['VDD', 'VDDQ', 'VPP'].flatMap((rail, k) => [
      part(`L${k + 1}`, [`/n${k}`, rail], '1.5uH'),
      ...capacitors(10 * k + 10, 2, rail),
    ])
    const pmic = part('U1', ['/in', '/n0', '/n1', '/n2', 'VDD', 'VDDQ', 'VPP', 'GND', '/sda', '/scl', '/irq', '/pwr'])
    const rails = await railsOf([...input, pmic, ...coils, load('U2', ['VDD', 'VDDQ', 'VPP'])])
    expect(stagesOf(rails)).toEqual({ VDD: ['U1'], VDDQ: ['U1'], VPP: ['U1'] })
    expect([...rails.values()].filter(({ feeds }) => feeds.includes('U1')).map(({ name }) => name)).not.toContain('VDD')
  })

  it('counts a coil whose value is a code by its size, and no ferrite that a pin stands alone behind', async () => {
    const wide = rectangleText('F.Fab', 4, 4)
    const coil = (ref: string, nets: readonly string[], drawings: string): string =>
      footprintText(
        ref,
        nets.map((net, k) => ({ number: String(k + 1), x: k, y: 0, net })),
        { value: '2R2', drawings },
      )
    const forms = [
      ...input,
      part('U1', ['/in', 'GND', '/n1', '/fb', '/en']),
      coil('L1', ['/n1', 'VDD_CORE'], wide),
      ...capacitors(10, 3, 'VDD_CORE'),
      load('U2', ['VDD_CORE', '/pll']),
      coil('L2', ['/pll', 'VDD_CORE'], rectangleText('F.Fab', 1.6, 0.8)),
    ]
    expect(stagesOf(await railsOf(forms))).toEqual({ VDD_CORE: ['U1'] })
  })

  it('is the same behind a link or a closed joint', async () => {
    const buck = [
      part('U1', ['/in', 'GND', '/n1', '/fb']),
      part('L1', ['/n1', '/raw'], '1uH'),
      ...capacitors(10, 3, '/raw'),
    ]
    const rails = await railsOf([
      ...input,
      ...buck,
      part('R1', ['/raw', 'VDD'], '0R'),
      ...capacitors(20, 3, 'VDD'),
      load('U2', ['VDD']),
    ])
    expect(stagesOf(rails)).toEqual({ '/raw': ['U1'], VDD: ['U1'] })
  })

  it('is a regulator between a higher supply and a lower one', async () => {
    const regulator = part('U1', ['+5V', 'GND', '+5V', '', '+3V3'])
    const rails = await railsOf([
      part('J1', ['+5V', 'GND']),
      ...capacitors(1, 2, '+5V'),
      regulator,
      ...capacitors(10, 2, '+3V3'),
      load('U2', ['+3V3']),
    ])
    expect(stagesOf(rails)).toEqual({ '+3V3': ['U1'] })
    expect(rails.get('+5V')?.feeds).toEqual(['U1'])
  })

  it('is a regulator behind another', async () => {
    const chain = [part('U1', ['/in', 'GND', 'VMAIN']), part('U2', ['VMAIN', 'GND', '/on', 'VQUIET', '/by'])]
    const rails = await railsOf([
      ...input,
      ...chain,
      ...capacitors(10, 3, 'VMAIN'),
      ...capacitors(20, 2, 'VQUIET'),
      load('U3', ['VMAIN', 'VQUIET']),
      part('R1', ['/on', 'VMAIN']),
    ])
    expect(stagesOf(rails)).toMatchObject({ VQUIET: ['U2'] })
  })

  it('is no amplifier before a filter for a loudspeaker, and no chip of two supplies that others share', async () => {
    const speaker = [
      part('U1', ['/in', 'GND', '/n1', '/a', '/b', '/c']),
      part('L1', ['/n1', '/ls'], '10uH'),
      ...capacitors(10, 1, '/ls', '1uF'),
      part('J2', ['/ls', 'GND']),
    ]
    const amplifiers = ['U5', 'U6'].map((ref) => part(ref, ['+12V', '-12V', '/o', '/p', '/q']))
    const rails = await railsOf([
      ...input,
      ...speaker,
      ...amplifiers,
      ...capacitors(20, 4, '+12V'),
      ...capacitors(30, 4, '-12V'),
    ])
    expect(stagesOf(rails)).toEqual({})
    expect(rails.has('/ls')).toBe(false)
  })
})

describe('a core whose supply is not known', () => {
  it('is named by the layout and by the board', async () => {
    const pins = Array.from({ length: 40 }, (_, k) => ({
      number: String(k + 1),
      x: k,
      y: 0,
      net: `/S${k}`,
      ...(k === 0 ? { pinFunction: 'XTAL1' } : {}),
    }))
    const { description, untold } = await imported(layoutText([footprintText('U1', pins)]))
    expect(untold.join('\n')).toContain('No rail could be told that feeds U1')
    const model = loadBoard(description)
    expect(model.ok ? boardRemarks(model.value).join('\n') : '').toContain('No rail is known to feed U1')
  })
})

interface NamedPad {
  readonly ref: string
  readonly net: string
  readonly pin: string
}

/** Every pad with its net and the name of its pin, by cutting the text at its brackets alone. */
function namedPads(text: string): NamedPad[] {
  return text.split(/\n(?=\s{1,2}\(footprint )/).flatMap((form) => {
    const ref = /\((?:fp_text reference|property "Reference") "([^"]*)"/.exec(form)?.[1] ?? ''
    return form
      .split('(pad "')
      .slice(1)
      .flatMap((pad) => {
        const net = /\(net \d+ "([^"]*)"\)/.exec(pad)?.[1]
        return net === undefined ? [] : [{ ref, net, pin: /\(pinfunction "([^"]*)"\)/.exec(pad)?.[1] ?? '' }]
      })
  })
}

/** Rail to maker as the pin names say: a switch pin with a coil on its net, or an output pin. */
function makersByPinNames(pads: readonly NamedPad[]): Map<string, Set<string>> {
  const makers = new Map<string, Set<string>>()
  const add = (rail: string, ref: string): void => void makers.set(rail, (makers.get(rail) ?? new Set()).add(ref))
  const coils = pads.filter(({ ref }) => /^L\d/.test(ref))
  for (const { ref, net, pin } of pads) {
    if (/^(VOUT|OUT|VO|VO_LDO)(_\d+)?$/.test(pin)) add(net, ref)
    if (!/^(SW|PHASE|LX)(_?[A-D0-9])?$/.test(pin)) continue
    for (const coil of coils.filter((pad) => pad.net === net))
      for (const far of coils) if (far.ref === coil.ref && far.net !== net) add(far.net, ref)
  }
  return makers
}

const withoutPinNames = (text: string): string => text.replaceAll(/\((pinfunction|pintype) "[^"]*"\)/g, '')

describe('real boards with every pin name and type taken away', () => {
  it('vme-wren: each converter and regulator is found at the rails that its pin names say', {
    timeout: FETCH_MS,
  }, async (context) => {
    const text = await readFile(await packagedFile(kicadTruth('vme-wren').package, context), 'utf8')
    const truth = makersByPinNames(namedPads(text))
    const { description } = await imported(withoutPinNames(text))
    const found = new Map(description.rails.flatMap(({ name, stages }) => (stages.length > 0 ? [[name, stages]] : [])))
    const refs = new Set(['IC22', 'IC24', 'IC29', 'IC30', 'IC31', 'IC32', 'IC40'])
    const wanted = [...truth].flatMap(([rail, makers]) =>
      [...makers].flatMap((ref) => (refs.has(ref) ? [[rail, ref]] : [])),
    )
    expect(wanted.length).toBeGreaterThan(8)
    expect(wanted.filter(([rail = '', ref = '']) => !(found.get(rail) ?? []).includes(ref))).toEqual([])
    expect(
      Object.keys(stagesOf(new Map(description.rails.map((rail) => [rail.name, rail])))).length,
    ).toBeLessThanOrEqual(12)
  })

  // Read off the layouts' pin lists, not from schematics: linear regulators, a load switch, and a step-up with its diode.
  const small: readonly (readonly [string, Readonly<Record<string, readonly string[]>>])[] = [
    ['tiny_tapeout/tinytapeout-demo', { '+3V3': ['U2'], '+1V8': ['U3'] }],
    ['stickhub/StickHub', { '+5V': ['U2'] }],
    ['pic_programmer/pic_programmer', { VCC: ['U3'], VPP: ['U4'] }],
  ]
  for (const [name, makers] of small)
    it(`${name}: each rail has its maker and no other`, { timeout: FETCH_MS }, async (context) => {
      const path = `usr/share/kicad/demos/${name}.kicad_pcb`
      const file = await packagedFile({ ...kicadTruth('vme-wren').package, path }, context)
      const { description } = await imported(withoutPinNames(await readFile(file, 'utf8')))
      expect(stagesOf(new Map(description.rails.map((rail) => [rail.name, rail])))).toEqual(makers)
    })
})
