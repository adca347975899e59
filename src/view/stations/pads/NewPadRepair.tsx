/** One more torn pad, lost ball or track: part, ball, what is hurt; what the ball carries is said while it is typed. */
import { say } from '../../../base/index.ts'
import { Plus } from 'lucide-react'
import { useId, useState } from 'react'
import type { BoardModel } from '../../../board/index.ts'
import { padHurts, padHurtWords, padMeaning } from '../../../case/index.ts'
import { Button } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import { SelectField } from '../../controls/fields.tsx'
import { useDesk, useScreen } from '../../stores/hooks.ts'
import { addPadRepair, sideOf } from './edit.ts'
import { PadMeaningLine } from './PadMeaningLine.tsx'
import { optionsOf } from '../../optionsOf.ts'
import own from './pads.module.css'

const hurts = optionsOf(padHurts, padHurtWords)

export function NewPadRepair({ model, lifted }: { readonly model: BoardModel; readonly lifted: readonly string[] }) {
  const desk = useDesk()
  const id = useId()
  const selected = useScreen(({ selection }) => (selection?.kind === 'part' ? selection.id : undefined))
  const [ref, setRef] = useState<string>()
  const [pad, setPad] = useState('')
  const [hurt, setHurt] = useState<(typeof padHurts)[number]>('pad torn')
  const [wrong, setWrong] = useState<string>()
  const typedRef = ref ?? selected ?? lifted[0] ?? ''
  const part = model.parts.find((each) => each.ref.toLowerCase() === typedRef.trim().toLowerCase())
  const meaning = part === undefined ? undefined : padMeaning(model, part.ref, pad.trim())
  const needsPad = hurt === 'pad torn' || hurt === 'ball lost'
  const add = (): void => {
    const fault =
      part === undefined ? say('No such part on this board.') : faultOf(pad, meaning !== undefined, needsPad)
    setWrong(fault)
    if (part === undefined || fault !== undefined) return
    const name = part.pads.find(({ number }) => number.toLowerCase() === pad.trim().toLowerCase())?.number
    addPadRepair(desk, { ref: part.ref, pad: name ?? '', hurt, side: sideOf(desk, part.ref) })
    setPad('')
  }
  return (
    <form
      aria-label={say('Note a torn pad or track')}
      className={own.fresh}
      onSubmit={(event) => {
        event.preventDefault()
        add()
      }}
    >
      <div className={controls.field}>
        <label className={controls.label} htmlFor={`${id}-ref`}>
          {say('Part')}
        </label>
        <input
          id={`${id}-ref`}
          className={controls.input}
          value={typedRef}
          onChange={(event) => {
            setRef(event.target.value)
            setWrong(undefined)
          }}
        />
      </div>
      <div className={controls.field}>
        <label className={controls.label} htmlFor={`${id}-pad`}>
          {say('Ball or pad')}
        </label>
        <input
          id={`${id}-pad`}
          className={controls.input}
          placeholder="C4"
          value={pad}
          aria-invalid={wrong !== undefined}
          aria-describedby={wrong === undefined ? undefined : `${id}-wrong`}
          onChange={(event) => {
            setPad(event.target.value)
            setWrong(undefined)
          }}
        />
      </div>
      <SelectField label={say('What is hurt')} value={hurt} options={hurts} onChange={setHurt} />
      <Button type="submit">
        <Plus size={15} aria-hidden="true" /> {say('Note it')}
      </Button>
      {wrong !== undefined && (
        <p className={controls.wrong} id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
      <div className={own.wide} aria-live="polite">
        {meaning !== undefined && <PadMeaningLine meaning={meaning} />}
      </div>
    </form>
  )
}

function faultOf(pad: string, isThere: boolean, needsPad: boolean): string | undefined {
  if (pad.trim() === '') return needsPad ? say('Which ball or pad?') : undefined
  return isThere ? undefined : say('The part has no such ball or pad.')
}
