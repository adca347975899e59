/** Signals of a part's balls from a table that the shop has: typed, pasted or from a file; for it alone or all of its kind. */
import { useState } from 'react'
import { sayFault, say } from '../../base/index.ts'
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
    return {
      said: say('{length, plural, one {# ball} other {# balls}} named on {refs}.', {
        length: read.value.length,
        refs: refs.join(', '),
      }),
    }
  }
  return (
    <div className={styles.fields}>
      <TextOrFile
        label={say('Balls')}
        hint={say('Such as G2,DQ3_A: ball, signal, and its net if known.')}
        takeWords={say('Take these')}
        fileLabel={say('File with balls')}
        mostMegabytes={2}
        take={take}
      >
        {likes.length > 1 && (
          <Tick
            label={say('All {length} of this package have these signals', { length: likes.length })}
            checked={forAll}
            onChange={setForAll}
          />
        )}
      </TextOrFile>
    </div>
  )
}
