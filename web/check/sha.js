"use strict";
// SHA-256 and SHA-512 (FIPS 180-4). A page opened from a stick, or by plain http, has no other.

const PRIMES = [];
for (let n = 2n; PRIMES.length < 80; n += 1n) {
  if (PRIMES.every((prime) => n % prime)) PRIMES.push(n);
}

/** The first 64 bits behind the point of a prime's root. */
function fraction(prime, degree) {
  const power = BigInt(degree);
  const of = prime << (64n * power);
  let root = 1n << 80n;
  for (;;) {
    const next = ((power - 1n) * root + of / root ** (power - 1n)) / power;
    if (next >= root) return root & 0xffffffffffffffffn;
    root = next;
  }
}

const ROUNDS = PRIMES.map((prime) => fraction(prime, 3));
const BEGINS = PRIMES.slice(0, 8).map((prime) => fraction(prime, 2));
const ROUNDS_256 = Int32Array.from(ROUNDS.slice(0, 64), (n) => Number(n >> 32n) | 0);
const BEGINS_256 = Int32Array.from(BEGINS, (n) => Number(n >> 32n) | 0);

/** SHA-256 of bytes that come piece by piece. */
class Sha256 {
  constructor() {
    this.state = BEGINS_256.slice();
    this.rest = new Uint8Array(64);
    this.kept = 0;
    this.bytes = 0;
    this.words = new Int32Array(64);
  }

  update(bytes) {
    this.bytes += bytes.length;
    let at = 0;
    if (this.kept) {
      at = Math.min(64 - this.kept, bytes.length);
      this.rest.set(bytes.subarray(0, at), this.kept);
      this.kept += at;
      if (this.kept < 64) return this;
      this.block(this.rest, 0);
      this.kept = 0;
    }
    for (; at + 64 <= bytes.length; at += 64) this.block(bytes, at);
    this.rest.set(bytes.subarray(at));
    this.kept = bytes.length - at;
    return this;
  }

  block(bytes, from) {
    const w = this.words;
    for (let i = 0, at = from; i < 16; i += 1, at += 4) {
      w[i] = (bytes[at] << 24) | (bytes[at + 1] << 16) | (bytes[at + 2] << 8) | bytes[at + 3];
    }
    for (let i = 16; i < 64; i += 1) {
      const x = w[i - 15];
      const y = w[i - 2];
      const low = ((x >>> 7) | (x << 25)) ^ ((x >>> 18) | (x << 14)) ^ (x >>> 3);
      const high = ((y >>> 17) | (y << 15)) ^ ((y >>> 19) | (y << 13)) ^ (y >>> 10);
      w[i] = (w[i - 16] + low + w[i - 7] + high) | 0;
    }
    const s = this.state;
    let a = s[0], b = s[1], c = s[2], d = s[3], e = s[4], f = s[5], g = s[6], h = s[7];
    for (let i = 0; i < 64; i += 1) {
      const turned = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7));
      const one = (h + turned + ((e & f) ^ (~e & g)) + ROUNDS_256[i] + w[i]) | 0;
      const spun = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10));
      const two = (spun + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      h = g;
      g = f;
      f = e;
      e = (d + one) | 0;
      d = c;
      c = b;
      b = a;
      a = (one + two) | 0;
    }
    s[0] += a;
    s[1] += b;
    s[2] += c;
    s[3] += d;
    s[4] += e;
    s[5] += f;
    s[6] += g;
    s[7] += h;
  }

  digest() {
    const bits = BigInt(this.bytes) * 8n;
    const end = new Uint8Array((this.kept < 56 ? 64 : 128) - this.kept);
    end[0] = 0x80;
    new DataView(end.buffer).setBigUint64(end.length - 8, bits);
    this.update(end);
    const made = new DataView(new ArrayBuffer(32));
    this.state.forEach((word, i) => made.setInt32(4 * i, word));
    return new Uint8Array(made.buffer);
  }
}

/** SHA-512 of a few bytes. */
function sha512(bytes) {
  const whole = new Uint8Array(Math.ceil((bytes.length + 17) / 128) * 128);
  whole.set(bytes);
  whole[bytes.length] = 0x80;
  const view = new DataView(whole.buffer);
  view.setBigUint64(whole.length - 8, BigInt(bytes.length) * 8n);
  const cut = (n) => BigInt.asUintN(64, n);
  const turn = (n, by) => (n >> by) | cut(n << (64n - by));
  const state = BEGINS.slice();
  for (let from = 0; from < whole.length; from += 128) {
    const w = Array.from({ length: 16 }, (_, i) => view.getBigUint64(from + 8 * i));
    for (let i = 16; i < 80; i += 1) {
      const [x, y] = [w[i - 15], w[i - 2]];
      const low = turn(x, 1n) ^ turn(x, 8n) ^ (x >> 7n);
      w.push(cut(w[i - 16] + low + w[i - 7] + (turn(y, 19n) ^ turn(y, 61n) ^ (y >> 6n))));
    }
    let [a, b, c, d, e, f, g, h] = state;
    for (let i = 0; i < 80; i += 1) {
      const chosen = (e & f) ^ (cut(~e) & g);
      const one = h + (turn(e, 14n) ^ turn(e, 18n) ^ turn(e, 41n)) + chosen + ROUNDS[i] + w[i];
      const two = (turn(a, 28n) ^ turn(a, 34n) ^ turn(a, 39n)) + ((a & b) ^ (a & c) ^ (b & c));
      [h, g, f, e, d, c, b, a] = [g, f, e, cut(d + one), c, b, a, cut(one + two)];
    }
    [a, b, c, d, e, f, g, h].forEach((word, i) => {
      state[i] = cut(state[i] + word);
    });
  }
  const made = new DataView(new ArrayBuffer(64));
  state.forEach((word, i) => made.setBigUint64(8 * i, word));
  return new Uint8Array(made.buffer);
}

const hexOf = (bytes) => Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
const bytesOf = (hex) => Uint8Array.from(hex.match(/../g) ?? [], (two) => Number.parseInt(two, 16));
