/** The strip above the editor's sheet: undo, the hand, the side, zoom, and what is done to the parts that are selected. */
import { sideWords } from '../../case/index.ts'
import {
  AlignCenterHorizontal,
  AlignCenterVertical,
  AlignEndHorizontal,
  AlignEndVertical,
  AlignHorizontalDistributeCenter,
  AlignStartHorizontal,
  AlignStartVertical,
  AlignVerticalDistributeCenter,
  FlipHorizontal2,
  Hand,
  type LucideIcon,
  Maximize,
  MousePointer2,
  Redo2,
  RotateCcw,
  RotateCw,
  Trash2,
  Undo2,
  ZoomIn,
  ZoomOut,
} from 'lucide-react'
import type { Alignment } from '../../board/index.ts'
import { sentenceCase, say } from '../../base/index.ts'
import { Button } from '../controls/Button.tsx'
import { SelectField } from '../controls/fields.tsx'
import { zoomed } from './camera.ts'
import { turnOver, turnSelected } from './EditorSheet.tsx'
import { edit, type EditorTool, fitBoard, redo, seeSide, undo } from './editorStore.ts'
import styles from './own-board.module.css'
import { useEditor, useEditorStore } from './useEditor.ts'

interface IconButtonProps {
  readonly words: string
  readonly icon: LucideIcon
  readonly onClick: () => void
  readonly disabled?: boolean
  readonly pressed?: boolean
  readonly keys?: string
}

function IconButton({ words, icon: Icon, onClick, disabled = false, pressed, keys }: IconButtonProps) {
  return (
    <Button
      size="icon"
      aria-label={words}
      title={keys === undefined ? words : `${words} (${keys})`}
      disabled={disabled}
      aria-pressed={pressed}
      onClick={onClick}
    >
      <Icon size={17} aria-hidden="true" />
    </Button>
  )
}

export function ToolStrip() {
  return (
    <div className={styles.strip} role="toolbar" aria-label={say('Tools of the editor')}>
      <UndoGroup />
      <ViewGroup />
      <SelectedGroup />
    </div>
  )
}

function UndoGroup() {
  const editor = useEditorStore()
  const { past, future } = useEditor(({ session }) => session)
  const [last, next] = [past.at(-1)?.words, future[0]?.words]
  return (
    <div className={styles.group}>
      <IconButton
        words={last === undefined ? say('Undo') : say('Undo: {last}', { last })}
        icon={Undo2}
        keys={say('Ctrl Z')}
        disabled={last === undefined}
        onClick={() => undo(editor)}
      />
      <IconButton
        words={next === undefined ? say('Redo') : say('Redo: {next}', { next })}
        icon={Redo2}
        keys={say('Ctrl Shift Z')}
        disabled={next === undefined}
        onClick={() => redo(editor)}
      />
    </div>
  )
}

const grids = ['0', '0.1', '0.25', '0.5', '1'] as const

function ViewGroup() {
  const editor = useEditorStore()
  const tool = useEditor((state) => state.tool)
  const view = useEditor((state) => state.view)
  const gridMm = useEditor((state) => state.gridMm)
  const take = (next: EditorTool) => () => editor.setState({ tool: next })
  const zoom = (factor: number) => () => editor.setState({ view: zoomed(editor.getState().view, factor) })
  return (
    <div className={styles.group}>
      <IconButton
        words={say('Select and drag parts')}
        icon={MousePointer2}
        pressed={tool === 'select'}
        onClick={take('select')}
      />
      <IconButton words={say('Move the view')} icon={Hand} pressed={tool === 'view'} onClick={take('view')} />
      {(['top', 'bottom'] as const).map((side) => (
        <Button key={side} aria-pressed={view.side === side} onClick={() => seeSide(editor, side)}>
          {sentenceCase(sideWords[side])}
        </Button>
      ))}
      <IconButton words={say('Zoom out')} icon={ZoomOut} keys="−" onClick={zoom(0.8)} />
      <IconButton words={say('Zoom in')} icon={ZoomIn} keys="+" onClick={zoom(1.25)} />
      <IconButton words={say('Show the whole board')} icon={Maximize} keys="0" onClick={() => fitBoard(editor)} />
      <SelectField
        label={say('Grid')}
        labelHidden
        value={grids.find((each) => Number(each) === gridMm) ?? '0.5'}
        options={grids.map((value) => ({
          value,
          words: value === '0' ? say('No grid') : say('Grid {value} mm', { value }),
        }))}
        onChange={(value) => editor.setState({ gridMm: Number(value) })}
      />
    </div>
  )
}

interface Lining {
  readonly words: string
  readonly icon: LucideIcon
  readonly to: Alignment
  /** With the board turned over. */
  readonly turned: Alignment
}

const linings: readonly Lining[] = [
  { words: say('Line up at the left'), icon: AlignStartVertical, to: 'left', turned: 'right' },
  { words: say('Line up one above the other'), icon: AlignCenterVertical, to: 'centre-x', turned: 'centre-x' },
  { words: say('Line up at the right'), icon: AlignEndVertical, to: 'right', turned: 'left' },
  { words: say('Line up at the top'), icon: AlignStartHorizontal, to: 'top', turned: 'top' },
  { words: say('Line up side by side'), icon: AlignCenterHorizontal, to: 'centre-y', turned: 'centre-y' },
  { words: say('Line up at the bottom'), icon: AlignEndHorizontal, to: 'bottom', turned: 'bottom' },
]

function SelectedGroup() {
  const editor = useEditorStore()
  const selected = useEditor((state) => state.selected)
  const side = useEditor((state) => state.view.side)
  const refs = [...selected]
  const none = refs.length === 0
  return (
    <div className={styles.group}>
      <IconButton
        words={say('Turn left')}
        icon={RotateCcw}
        keys="R"
        disabled={none}
        onClick={() => turnSelected(editor, 90)}
      />
      <IconButton
        words={say('Turn right')}
        icon={RotateCw}
        keys={say('Shift R')}
        disabled={none}
        onClick={() => turnSelected(editor, -90)}
      />
      <IconButton
        words={say('Put on the other side')}
        icon={FlipHorizontal2}
        keys="F"
        disabled={none}
        onClick={() => turnOver(editor)}
      />
      {linings.map(({ words, icon, to, turned }) => (
        <IconButton
          key={to}
          words={words}
          icon={icon}
          disabled={refs.length < 2}
          onClick={() => edit(editor, { kind: 'align', refs, to: side === 'top' ? to : turned })}
        />
      ))}
      <IconButton
        words={say('Space evenly from left to right')}
        icon={AlignHorizontalDistributeCenter}
        disabled={refs.length < 3}
        onClick={() => edit(editor, { kind: 'distribute', refs, along: 'x' })}
      />
      <IconButton
        words={say('Space evenly from top to bottom')}
        icon={AlignVerticalDistributeCenter}
        disabled={refs.length < 3}
        onClick={() => edit(editor, { kind: 'distribute', refs, along: 'y' })}
      />
      <IconButton
        words={say('Take away')}
        icon={Trash2}
        keys="Delete"
        disabled={none}
        onClick={() => edit(editor, { kind: 'remove', refs })}
      />
    </div>
  )
}
