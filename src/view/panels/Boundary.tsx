/** Holds what breaks while it is drawn: says so in a sentence, in its own place, and leaves the case and the rest standing. */
import { say } from '../../base/index.ts'
import { Component, type ErrorInfo, type ReactNode } from 'react'
import { downloadCase } from '../actions/onDemand.ts'
import { noteBroken, openWithout } from '../actions/brokenCase.ts'
import type { Desk } from '../stores/desk.ts'
import { useDesk } from '../stores/hooks.ts'
import { Button } from '../controls/Button.tsx'
import styles from './boundary.module.css'

interface BoundaryProps {
  /** As in "… could not be drawn": `This station`, `The sheet`. */
  readonly what: string
  /** What was drawn; something else is tried anew. */
  readonly drawn: unknown
  readonly children: ReactNode
}

export function Boundary(props: BoundaryProps) {
  return <Holder {...props} desk={useDesk()} />
}

interface HolderProps extends BoundaryProps {
  readonly desk: Desk
}

interface HolderState {
  readonly broken: Error | undefined
  readonly drawn: unknown
}

const CORNER = { x: 40, y: 80 }

class Holder extends Component<HolderProps, HolderState> {
  override state: HolderState = { broken: undefined, drawn: this.props.drawn }

  static getDerivedStateFromError(thrown: unknown): Partial<HolderState> {
    return { broken: thrown instanceof Error ? thrown : new Error(String(thrown)) }
  }

  static getDerivedStateFromProps({ drawn }: HolderProps, state: HolderState): Partial<HolderState> | null {
    return Object.is(drawn, state.drawn) ? null : { drawn, broken: undefined }
  }

  override componentDidCatch(_: Error, __: ErrorInfo): void {
    noteBroken(this.props.desk)
  }

  override render(): ReactNode {
    const { broken } = this.state
    const { what, desk, children } = this.props
    if (broken === undefined) return children
    const again = (): void => this.setState({ broken: undefined })
    return (
      <section className={styles.broken} role="alert" aria-label={say('{what} could not be drawn', { what })}>
        <h2>{say('{what} could not be drawn', { what })}</h2>
        <p>
          {say('Something in this case breaks it: {message}. The case itself is as it was; nothing is lost.', {
            message: broken.message.slice(0, 200),
          })}
        </p>
        <div className={styles.ways}>
          <Button tone="strong" onClick={() => void downloadCase(desk, CORNER)}>
            {say('Export this case')}
          </Button>
          <Button onClick={again}>{say('Try again')}</Button>
          <Button onClick={() => void openWithout(desk).then(again)}>{say('Open without it')}</Button>
        </div>
      </section>
    )
  }
}
