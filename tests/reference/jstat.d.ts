/** The little of jstat that the reference tests use; the package brings no types. */
declare module 'jstat' {
  interface Continuous {
    cdf(x: number, first: number, second: number): number;
    pdf(x: number, first: number, second: number): number;
    inv(p: number, first: number, second: number): number;
  }
  const jstat: {
    readonly normal: Continuous;
    readonly beta: Continuous;
    readonly gamma: Continuous;
    readonly chisquare: { cdf(x: number, freedom: number): number };
  };
  export default jstat;
}
