/** What is known about the thing that is selected, in words and numbers. */
import { say } from '../../base/index.ts'
import { ArrowLeft } from 'lucide-react'
import { useEffect, useRef } from 'react'
import { Button } from '../controls/Button.tsx'
import type { Selection } from '../sheet/index.ts'
import { useBoard, useDesk } from '../stores/hooks.ts'
import { LaneEvidence } from './LaneEvidence.tsx'
import { NetEvidence, RailEvidence, RegionEvidence } from './PlainEvidence.tsx'
import { PartEvidence } from './PartEvidence.tsx'
import styles from '../controls/panel.module.css'

export function Evidence({ selection }: { readonly selection: Selection }) {
  const desk = useDesk()
  const head = useRef<HTMLHeadingElement>(null)
  const { kind, id } = selection
  useEffect(() => {
    if (id !== '') head.current?.scrollIntoView({ block: 'nearest' })
  }, [id])
  return (
    <section className={styles.section} aria-label={say('Evidence for {id}', { id })}>
      <div className={styles.row}>
        <Button tone="quiet" onClick={() => desk.screen.setState({ selection: undefined })}>
          <ArrowLeft size={16} aria-hidden="true" /> {say('Back to the list')}
        </Button>
      </div>
      <h2 ref={head} className="visually-hidden">
        {say('Evidence for {id}', { id })}
      </h2>
      <Body kind={kind} id={id} />
    </section>
  )
}

function Body({ kind, id }: { readonly kind: Selection['kind']; readonly id: string }) {
  const board = useBoard()
  if (board === undefined) return undefined
  if (kind === 'part') return <PartEvidence model={board.model} id={id} />
  if (kind === 'lane') return <LaneEvidence model={board.model} id={id} />
  if (kind === 'rail') return <RailEvidence model={board.model} id={id} />
  if (kind === 'region') return <RegionEvidence model={board.model} id={id} />
  return <NetEvidence model={board.model} id={id} />
}
