/** Lines of the measuring sheet as keys of maps. */
import type { LineName } from './schema.ts'

export const lineKey = ({ kind, name }: LineName): string => `${kind} ${name}`
