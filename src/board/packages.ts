/** The package outlines that ship with Liftmap, by name. */
import ddr5 from '../../boards/packages/102-ball.json' with { type: 'json' }
import ball170 from '../../boards/packages/170-ball.json' with { type: 'json' }
import ball180 from '../../boards/packages/180-ball.json' with { type: 'json' }
import ball190 from '../../boards/packages/190-ball.json' with { type: 'json' }
import ball200 from '../../boards/packages/200-ball.json' with { type: 'json' }
import ball266 from '../../boards/packages/266-ball.json' with { type: 'json' }
import ball315 from '../../boards/packages/315-ball.json' with { type: 'json' }
import ddr3 from '../../boards/packages/96-ball-ddr3.json' with { type: 'json' }
import ddr4 from '../../boards/packages/96-ball-ddr4.json' with { type: 'json' }
import core29 from '../../boards/packages/core-29.json' with { type: 'json' }
import core40 from '../../boards/packages/core-40.json' with { type: 'json' }
import core45 from '../../boards/packages/core-45.json' with { type: 'json' }
import stack16 from '../../boards/packages/stack-16x64.json' with { type: 'json' }
import stack8 from '../../boards/packages/stack-8x128.json' with { type: 'json' }
import { type PackageOutline, packageOutlineSchema } from './package-outline.ts'

const memories = [ball170, ball180, ball190, ball266, ball200, ball315, ddr3, ddr4, ddr5, stack8, stack16]
const cores = [core29, core40, core45]
const files: readonly unknown[] = [...memories, ...cores]

export const packageOutlines: ReadonlyMap<string, PackageOutline> = new Map(
  files.map((file) => packageOutlineSchema.parse(file)).map((outline) => [outline.name, outline]),
)
