/** Signals of a part's balls from a table that the shop has: typed, pasted or from a file; for it alone or all of its kind. */
import { useState } from 'react'
import { counted, sayFault } from '../../base/index.ts'
import { type NamedBall, type Part, readBalls } from '../../board/index.ts'
import { Tick } from '../controls/fields.tsx'
import styles from './own-board.module.css'
import { type Taken, TextOrFile } from './TextOrFile.tsx'
import { tried } from './tried.ts'
import { useEditedBoard, useEditorStore } from './useEditor.ts'

const withoutNet = ({ ball, signal }: NamedBall): NamedBall => ({ ball, ...(signal === undefined ? {} : { signal }) })

export function BallTable({ part }: { readonly part: Part }) {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const likes = board.parts.filter((each) => each.kind === part.kind && each.package === part.package)
  const [forAll, setForAll] = useState(likes.length > 1)
  const take = (text: string): Taken => {
    const read = readBalls(text)
    if (!read.ok) return { fault: read.faults.map(sayFault).slice(0, 2).join(' ') }
    const refs = forAll ? likes.map(({ ref }) => ref) : [part.ref]
    for (const ref of refs) {
      // nets are of one part; its likes have the signals only
      const balls = ref === part.ref ? read.value : read.value.map(withoutNet)
      const fault = tried(editor, { kind: 'name-balls', ref, balls: balls.map((ball) => ({ ...ball })) })
      if (fault !== undefined) return { fault }
    }
    return { said: `${counted(read.value.length, 'ball')} named on ${refs.join(', ')}.` }
  }
  return (
    <div className={styles.fields}>
      <TextOrFile
        label="Balls"
        hint="Such as G2,DQ3_A: ball, signal, and its net if known."
        takeWords="Take these"
        fileLabel="File with balls"
        mostMegabytes={2}
        take={take}
      >
        {likes.length > 1 && (
          <Tick
            label={`All ${likes.length} of this package have these signals`}
            checked={forAll}
            onChange={setForAll}
          />
        )}
      </TextOrFile>
    </div>
  )
}
