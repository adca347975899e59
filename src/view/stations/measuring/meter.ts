/** The bench meter: connected, let go of, read. */
import { sayFault, say } from '../../../base/index.ts'
import { connectMeter, type Quantity, type Reading } from '../../../measure/index.ts'
import type { Desk } from '../../stores/desk.ts'
import { meterStoreOf } from '../../stores/meterStore.ts'

/** The user chooses a port; the meter behind it is asked for its name. */
export async function connect(desk: Desk): Promise<void> {
  const store = meterStoreOf(desk)
  const { ports, baudRate, state } = store.getState()
  if (ports === undefined || state !== 'off') return
  store.setState({ state: 'connecting', trouble: undefined })
  try {
    const port = await ports.choose(baudRate)
    const met = await connectMeter(port.line)
    if (met.ok) {
      store.setState({ state: 'on', meter: met.value, port })
      return
    }
    await port.close().catch(() => undefined)
    store.setState({ state: 'off', trouble: met.faults.map(sayFault).join(' ') })
  } catch (reason) {
    store.setState({ state: 'off', trouble: troubleOf(reason) })
  }
}

/** Choosing no port is no trouble. */
function troubleOf(reason: unknown): string | undefined {
  if (reason instanceof Error && reason.name === 'NotFoundError') return undefined
  const found = reason instanceof Error ? reason.message : String(reason)
  return say('The port could not be opened ({found}). Is another program using it?', { found })
}

export async function disconnect(desk: Desk): Promise<void> {
  const store = meterStoreOf(desk)
  const { port } = store.getState()
  store.setState({ state: 'off', meter: undefined, port: undefined, trouble: undefined })
  await port?.close().catch(() => undefined)
}

export interface MeterReading {
  readonly reading: Reading
  readonly meter: string
}

/** @returns undefined where there is no meter or it gave no reading; then the store says why */
export async function readMeter(desk: Desk, quantity: Quantity): Promise<MeterReading | undefined> {
  const store = meterStoreOf(desk)
  const { meter, state } = store.getState()
  if (meter === undefined || state !== 'on') return undefined
  store.setState({ state: 'reading', trouble: undefined })
  const read = await meter.read(quantity)
  if (store.getState().meter !== meter) return undefined
  store.setState({ state: 'on', trouble: read.ok ? undefined : read.faults.map(sayFault).join(' ') })
  return read.ok ? { reading: read.value, meter: meter.identity.words } : undefined
}
