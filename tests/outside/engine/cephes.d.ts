/** What is used of the package, which brings no types that its entry point leads to. */
declare module 'cephes' {
  const cephes: {
    readonly compiled: Promise<void>;
    lgam(x: number): number;
    psi(x: number): number;
    igam(shape: number, x: number): number;
    igamc(shape: number, x: number): number;
    incbet(a: number, b: number, x: number): number;
    incbi(a: number, b: number, p: number): number;
    ndtr(z: number): number;
    ndtri(p: number): number;
  };
  export default cephes;
}
