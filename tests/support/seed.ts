/** Before every test file: property tests draw the same examples each time, unless they say another seed. */
import fc from 'fast-check'

fc.configureGlobal({ seed: 20_251_125 })
