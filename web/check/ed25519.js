// Whether an Ed25519 signature is its key's (RFC 8032, 5.1.7). Nothing secret is reckoned with.

const P = (1n << 255n) - 19n;
const ORDER = (1n << 252n) + 27742317777372353535851937790883648493n;
const mod = (n) => ((n % P) + P) % P;

function power(base, exponent) {
  let [made, n, left] = [1n, mod(base), exponent];
  for (; left; left >>= 1n) {
    if (left & 1n) made = (made * n) % P;
    n = (n * n) % P;
  }
  return made;
}

const D = mod(-121665n * power(121666n, P - 2n));

function plus([x1, y1, z1, t1], [x2, y2, z2, t2]) {
  const low = mod((y1 - x1) * (y2 - x2));
  const high = mod((y1 + x1) * (y2 + x2));
  const c = mod(2n * t1 * t2 * D);
  const d = mod(2n * z1 * z2);
  const [e, f, g, h] = [high - low, d - c, d + c, high + low];
  return [mod(e * f), mod(g * h), mod(f * g), mod(e * h)];
}

function times(n, point) {
  let [made, each] = [[0n, 1n, 1n, 0n], point];
  for (let left = n; left; left >>= 1n) {
    if (left & 1n) made = plus(made, each);
    each = plus(each, each);
  }
  return made;
}

const numberOf = (bytes) => bytes.reduceRight((n, byte) => (n << 8n) | BigInt(byte), 0n);

/** The point that 32 bytes stand for, null for none. */
function pointOf(bytes) {
  const whole = numberOf(bytes);
  const [odd, y] = [whole >> 255n, whole & ((1n << 255n) - 1n)];
  if (y >= P) return null;
  const square = mod((y * y - 1n) * power(D * y * y + 1n, P - 2n));
  let x = power(square, (P + 3n) / 8n);
  if (mod(x * x - square)) x = mod(x * power(2n, (P - 1n) / 4n));
  if (mod(x * x - square) || (!x && odd)) return null;
  if ((x & 1n) !== odd) x = P - x;
  return [x, y, 1n, mod(x * y)];
}

const BASE_Y = mod(4n * power(5n, P - 2n));
const BASE = pointOf(Uint8Array.from({ length: 32 }, (_, i) => Number((BASE_Y >> BigInt(8 * i)) & 255n)));

function verified(key, signature, text) {
  const a = pointOf(key);
  const r = pointOf(signature.subarray(0, 32));
  const s = numberOf(signature.subarray(32));
  if (!a || !r || s >= ORDER) return false;
  const all = new Uint8Array(64 + text.length);
  all.set(signature.subarray(0, 32));
  all.set(key, 32);
  all.set(text, 64);
  const [x1, y1, z1] = times(s, BASE);
  const [x2, y2, z2] = plus(r, times(numberOf(sha512(all)) % ORDER, a));
  return !mod(x1 * z2 - x2 * z1) && !mod(y1 * z2 - y2 * z1);
}
