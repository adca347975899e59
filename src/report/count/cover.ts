/** A report of a test that went over the whole memory: what it does not list passed. */
import { signatureOf } from './signature.ts'
import type { ChannelTally, PartTally, Tally } from '../tally.ts'

/** The tally with every untested lane as passed, and signatures that say so; what fails stays as it is. */
export const coverWhole = (tally: Tally): Tally => ({ ...tally, parts: tally.parts.map(coverPart) })

function coverPart(part: PartTally): PartTally {
  const covered = { ...part, channels: part.channels.map(coverChannel) }
  return { ...covered, signature: signatureOf(covered) }
}

const coverChannel = (channel: ChannelTally): ChannelTally => ({
  ...channel,
  lanes: channel.lanes.map((lane) => (lane.state === 'untested' ? { ...lane, state: 'pass' as const } : lane)),
})
