/**
 * The part of papaparse that is used here.
 *
 * The published types name browser and Node types, which the compilation
 * without them refuses (rightly: nothing here may use them). The path with the
 * file name is not covered by those types, so they stay out of that compilation;
 * it is also the build without Node streams, which the browser has no use for.
 */
declare module 'papaparse/papaparse.min.js' {
  interface Results {
    readonly data: readonly (readonly string[])[];
    /** `row`: index in `data` of the record at fault. */
    readonly errors: readonly {
      readonly type: string;
      readonly code: string;
      readonly row?: number;
    }[];
  }

  const papaparse: {
    parse(text: string, config: { readonly delimiter: string; readonly newline: string }): Results;
  };
  export default papaparse;
}
