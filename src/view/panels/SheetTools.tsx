/** Over the sheet: which side, what is drawn, and what the hand does. */
import { Menu } from '@base-ui/react/menu'
import { ChevronDown, Crosshair, EyeOff, Maximize2, MousePointer2, PencilRuler } from 'lucide-react'
import { useStore } from 'zustand'
import { takeTool } from '../actions/tools.ts'
import { Button } from '../controls/Button.tsx'
import controls from '../controls/controls.module.css'
import menu from '../controls/menu.module.css'
import type { CameraStore, Overlays, ShownSide, Tool } from '../sheet/index.ts'
import { useBoard, useDesk, useScreen, useTally } from '../stores/hooks.ts'
import { entries, shownOverlays, switchOverlay } from '../stations/entries.ts'
import { mannerNames, manners, paints } from '../stations/inspection/manners.ts'
import { useToldNames } from '../stations/memory-run/names/useWaiting.ts'
import { ProofKey } from '../stations/proof/ProofKey.tsx'
import { ProofSymbol } from '../stations/proof/ProofSymbol.tsx'
import styles from '../controls/sheetPane.module.css'
import { Swatch } from './Swatch.tsx'

export function SheetTools() {
  const board = useBoard()
  return (
    <div className={styles.tools}>
      <div className={styles.row}>
        {board !== undefined && <Sides camera={board.camera} />}
        <Hands />
        <Manners />
        <span className={styles.push} />
        {board !== undefined && (
          <Button onClick={() => board.camera.getState().fit()} title="Show the whole board">
            <Maximize2 size={15} aria-hidden="true" /> Fit
          </Button>
        )}
      </div>
      <Legend />
    </div>
  )
}

const sides: readonly { readonly side: ShownSide; readonly words: string }[] = [
  { side: 'top', words: 'Top' },
  { side: 'bottom', words: 'Bottom' },
  { side: 'both', words: 'Both' },
]

function Sides({ camera }: { readonly camera: CameraStore }) {
  const shown = useStore(camera, (state) => state.side)
  return (
    <div className={styles.joined} role="group" aria-label="Side of the board">
      {sides.map(({ side, words }) => (
        <button key={side} type="button" aria-pressed={side === shown} onClick={() => camera.getState().show(side)}>
          {words}
        </button>
      ))}
    </div>
  )
}

const marks: readonly { readonly tool: Tool; readonly words: string; readonly help: string }[] = [
  { tool: 'residue', words: 'Residue', help: 'something dried or sticky is seen here' },
  { tool: 'film', words: 'Film', help: 'a thin wet or greasy film' },
  { tool: 'corrosion', words: 'Corrosion', help: 'eaten or green metal' },
  { tool: 'clean', words: 'Clean spot', help: 'looked at closely, nothing there' },
  { tool: 'slip', words: 'Tool slip', help: 'scratched or knocked' },
  { tool: 'dam', words: 'Dam', help: 'a gasket, frame or tape that stopped the flow' },
  { tool: 'note', words: 'Note', help: 'words at a place' },
  { tool: 'measure-distance', words: 'Distance', help: 'measure between two points' },
]

function Hands() {
  const desk = useDesk()
  const tool = useScreen((screen) => screen.tool)
  const naming = useScreen((screen) => screen.naming.held !== undefined)
  const take = (next: Tool): void => takeTool(desk, next)
  const held = marks.find((entry) => entry.tool === tool)
  return (
    <div className={styles.joined} role="group" aria-label="What the hand does">
      <button type="button" aria-pressed={tool === 'select' && !naming} onClick={() => take('select')}>
        <MousePointer2 size={15} aria-hidden="true" /> Select
      </button>
      <button type="button" aria-pressed={tool === 'spill'} aria-keyshortcuts="S" onClick={() => take('spill')}>
        <Crosshair size={15} aria-hidden="true" /> Point at a spill <kbd>S</kbd>
      </button>
      <Menu.Root>
        <Menu.Trigger className={styles.trigger} data-held={held !== undefined || undefined}>
          <PencilRuler size={15} aria-hidden="true" /> {held?.words ?? 'Mark'}{' '}
          <ChevronDown size={13} aria-hidden="true" />
        </Menu.Trigger>
        <Menu.Portal>
          <Menu.Positioner sideOffset={6} align="start" className={menu.positioner}>
            <Menu.Popup className={menu.menu}>
              {marks.map((entry) => (
                <Menu.Item key={entry.tool} className={menu.item} onClick={() => take(entry.tool)}>
                  <b>{entry.words}</b> <span className={controls.hint}>{entry.help}</span>
                </Menu.Item>
              ))}
            </Menu.Popup>
          </Menu.Positioner>
        </Menu.Portal>
      </Menu.Root>
    </div>
  )
}

/** How the area that the hand holds is painted; only while it holds one. */
function Manners() {
  const desk = useDesk()
  const tool = useScreen((screen) => screen.tool)
  const painting = useScreen((screen) => screen.painting)
  if (!paints(tool)) return undefined
  return (
    <div className={styles.joined} role="group" aria-label="Painted as">
      {mannerNames.map((manner) => {
        const { icon: Icon, words } = manners[manner]
        return (
          <button
            key={manner}
            type="button"
            aria-pressed={manner === painting.manner}
            onClick={() => desk.screen.setState({ painting: { ...painting, manner } })}
          >
            <Icon size={15} aria-hidden="true" /> {words}
          </button>
        )
      })}
    </div>
  )
}

const overlays: readonly { readonly name: keyof Overlays; readonly words: string }[] = [
  { name: 'errorLoad', words: 'Error load' },
  { name: 'reach', words: 'Reach' },
  { name: 'field', words: 'Where it was' },
  { name: 'liftOrder', words: 'Lift order' },
  { name: 'passes', words: 'Passes' },
  { name: 'heat', words: 'Isotherms' },
  { name: 'proof', words: 'Before and after' },
  { name: 'short', words: 'Short' },
  { name: 'labels', words: 'Names' },
  { name: 'reportNames', words: 'The report’s names' },
]

/** The legend: each swatch says what a drawing means, and switches it. */
function Legend() {
  const desk = useDesk()
  const shown = useScreen(shownOverlays)
  const { id, without } = useScreen((screen) => entries[screen.station].overlays)
  const hasNames = Object.keys(useToldNames()).length > 0
  const switchOne = (name: keyof Overlays): void => desk.screen.setState(switchOverlay(desk.screen.getState(), name))
  return (
    <div className={styles.legend} role="group" aria-label="Drawn on the sheet">
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
      <ProofSymbol kind="untested" /> not tested
    </span>
  )
}
