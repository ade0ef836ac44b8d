/**
 * Lower Cholesky factor of a symmetric positive definite matrix (row-major), written into `into`.
 * False when the matrix is not positive definite; `into` is then of no use.
 */
export function cholesky(matrix: Float64Array, size: number, into: Float64Array): boolean {
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= into[i * size + k]! * into[j * size + k]!;
      if (i === j) {
        if (!(sum > 0)) return false;
        into[i * size + i] = Math.sqrt(sum);
      } else {
        into[i * size + j] = sum / into[j * size + j]!;
      }
    }
    for (let j = i + 1; j < size; j++) into[i * size + j] = 0;
  }
  return true;
}

/** Solves L L' x = b in place, L the lower factor. */
export function solveCholesky(factor: Float64Array, size: number, b: Float64Array): void {
  for (let i = 0; i < size; i++) {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= factor[i * size + k]! * b[k]!;
    b[i] = sum / factor[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let k = i + 1; k < size; k++) sum -= factor[k * size + i]! * b[k]!;
    b[i] = sum / factor[i * size + i]!;
  }
}

/** The inverse of L L', row-major, written into `into`. */
export function invertCholesky(factor: Float64Array, size: number, into: Float64Array): void {
  const column = new Float64Array(size);
  for (let j = 0; j < size; j++) {
    column.fill(0);
    column[j] = 1;
    solveCholesky(factor, size, column);
    for (let i = 0; i < size; i++) into[i * size + j] = column[i]!;
  }
}

/** Log of the determinant of L L'. */
export function logDeterminant(factor: Float64Array, size: number): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += Math.log(factor[i * size + i]!);
  return 2 * sum;
}
