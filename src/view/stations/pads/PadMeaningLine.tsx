/** What a ball carries and what its loss means: in words, with a sign beside them. */
import { CircleCheck, CircleHelp, TriangleAlert } from 'lucide-react'
import { sentenceCase } from '../../../base/index.ts'
import { carriesWords, type PadMeaning } from '../../../case/index.ts'
import own from './pads.module.css'

export function PadMeaningLine({ meaning }: { readonly meaning: PadMeaning }) {
  const { mayStay, name, carries, means } = meaning
  const kind = carriesWords[carries]
  const Icon = mayStay === undefined ? CircleHelp : mayStay ? CircleCheck : TriangleAlert
  return (
    <p className={own.meaning}>
      <Icon size={15} aria-hidden="true" />
      <span>
        <b>{sentenceCase(carries === 'unknown' ? name : name === carries ? kind : `${kind}, ${name}`)}.</b> {means}
      </span>
    </p>
  )
}
