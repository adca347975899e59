/** Where a lifted part lies until it goes back: bin, pin one, state. Kept as it is typed. */
import { say } from '../../../base/index.ts'
import { type Bin, binWords, partStates, partStateWords, pinOnes, pinOneWords } from '../../../case/index.ts'
import { editCase } from '../../actions/edit.ts'
import { SelectField, TextField } from '../../controls/fields.tsx'
import { optionsOf } from '../../optionsOf.ts'
import panel from '../../controls/panel.module.css'
import type { Desk } from '../../stores/desk.ts'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import own from './bins.module.css'

const notNoted = { value: 'not noted', words: say('not noted') } as const
const pins = [notNoted, ...optionsOf(pinOnes, pinOneWords)] as const
const states = [notNoted, ...optionsOf(partStates, partStateWords)] as const

const emptyBin = (ref: string): Bin => ({ ref, bin: '', pinOne: 'not noted', state: 'not noted' })

function editBin(desk: Desk, ref: string, change: Partial<Bin>): void {
  editCase(
    desk,
    (c) => {
      const bins = c.bins ?? []
      const next = { ...(bins.find((each) => each.ref === ref) ?? emptyBin(ref)), ...change }
      return { ...c, bins: [...bins.filter((each) => each.ref !== ref), next] }
    },
    change.bin === undefined ? undefined : `bin ${ref}`,
  )
}

/** One row a part. */
export function BinFields({ refs }: { readonly refs: readonly string[] }) {
  const desk = useDesk()
  const bins = usePresent()?.bins ?? []
  return refs.map((ref) => {
    const { bin, pinOne, state } = bins.find((each) => each.ref === ref) ?? emptyBin(ref)
    return (
      <div key={ref} role="group" aria-label={say('Bin of {ref}', { ref })} className={own.bin}>
        <TextField
          label={say('Bin of {ref}', { ref })}
          maxLength={80}
          value={bin}
          onChange={(typed) => editBin(desk, ref, { bin: typed })}
        />
        <SelectField
          label={say('Pin one')}
          value={pinOne}
          options={pins}
          onChange={(chosen) => editBin(desk, ref, { pinOne: chosen })}
        />
        <SelectField
          label={say('It is')}
          value={state}
          options={states}
          onChange={(chosen) => editBin(desk, ref, { state: chosen })}
        />
      </div>
    )
  })
}

/** At the refit: where each part lies. */
export function BinLines({ refs }: { readonly refs: readonly string[] }) {
  const bins = usePresent()?.bins ?? []
  const told = refs.flatMap((ref) => {
    const bin = bins.find((each) => each.ref === ref)
    const words = bin === undefined ? '' : binWords(bin)
    return words === '' ? [] : [`${ref}: ${words}`]
  })
  return told.length === 0 ? undefined : <p className={panel.quiet}>{told.join('. ')}.</p>
}
