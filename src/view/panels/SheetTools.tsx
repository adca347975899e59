/** Over the sheet: which side, what is drawn, and what the hand does. */
import { say } from '../../base/index.ts'
import { EyeOff, Maximize2 } from 'lucide-react'
import { useStore } from 'zustand'
import { Button } from '../controls/Button.tsx'
import type { CameraStore, Overlays, ShownSide } from '../sheet/index.ts'
import { useBoard, useDesk, useScreen, useTally } from '../stores/hooks.ts'
import { entries, shownOverlays, switchOverlay } from '../stations/entries.ts'
import { useToldNames } from '../stations/memory-run/names/useWaiting.ts'
import { ProofKey } from '../stations/proof/ProofKey.tsx'
import { ProofSymbol } from '../stations/proof/ProofSymbol.tsx'
import styles from '../controls/sheetPane.module.css'
import { Swatch } from './Swatch.tsx'
import { ToolBar } from './ToolBar.tsx'

export function SheetTools() {
  const board = useBoard()
  return (
    <div className={styles.tools}>
      <div className={styles.row}>
        {board !== undefined && <Sides camera={board.camera} />}
        <ToolBar />
      </div>
      <div className={styles.second}>
        <Legend />
        {board !== undefined && (
          <Button onClick={() => board.camera.getState().fit()} title={say('Show the whole board (F on the sheet)')}>
            <Maximize2 size={15} aria-hidden="true" /> {say('Fit')}
          </Button>
        )}
      </div>
    </div>
  )
}

const sides: readonly { readonly side: ShownSide; readonly words: string }[] = [
  { side: 'top', words: say('Top') },
  { side: 'bottom', words: say('Bottom') },
  { side: 'both', words: say('Both') },
]

function Sides({ camera }: { readonly camera: CameraStore }) {
  const shown = useStore(camera, (state) => state.side)
  return (
    <div className={styles.joined} role="group" aria-label={say('Side of the board')}>
      {sides.map(({ side, words }) => (
        <button key={side} type="button" aria-pressed={side === shown} onClick={() => camera.getState().show(side)}>
          {words}
        </button>
      ))}
    </div>
  )
}

const overlays: readonly { readonly name: keyof Overlays; readonly words: string }[] = [
  { name: 'errorLoad', words: say('Error load') },
  { name: 'reach', words: say('Reach') },
  { name: 'field', words: say('Where it was') },
  { name: 'liftOrder', words: say('Lift order') },
  { name: 'passes', words: say('Passes') },
  { name: 'heat', words: say('Isotherms') },
  { name: 'proof', words: say('Before and after') },
  { name: 'short', words: say('Short') },
  { name: 'labels', words: say('Names') },
  { name: 'reportNames', words: say('The report’s names') },
]

/** The legend: each swatch says what a drawing means, and switches it. */
function Legend() {
  const desk = useDesk()
  const shown = useScreen(shownOverlays)
  const { id, without } = useScreen((screen) => entries[screen.station].overlays)
  const hasNames = Object.keys(useToldNames()).length > 0
  const switchOne = (name: keyof Overlays): void => desk.screen.setState(switchOverlay(desk.screen.getState(), name))
  return (
    <div className={styles.legend} role="group" aria-label={say('Drawn on the sheet')}>
      {overlays
        .filter(({ name }) => !without.includes(name) && (name !== 'reportNames' || hasNames))
        .map(({ name, words }) => (
          <button key={name} type="button" aria-pressed={shown[name] === true} onClick={() => switchOne(name)}>
            {shown[name] === true ? <Swatch of={name} /> : <EyeOff width={20} height={15} aria-hidden="true" />} {words}
          </button>
        ))}
      {id === 'proof' && shown.proof === true && <ProofKey />}
      {id !== 'proof' && shown.errorLoad && <UntestedKey />}
    </div>
  )
}

/** What the dots mean, while there are some. */
function UntestedKey() {
  const lanes = (useTally()?.parts ?? []).flatMap((part) => part.channels.flatMap((channel) => channel.lanes))
  if (!lanes.some((lane) => lane.state === 'untested')) return undefined
  return (
    <span className={styles.keyed}>
      <ProofSymbol kind="untested" /> {say('not tested')}
    </span>
  )
}
