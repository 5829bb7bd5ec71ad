// The sentences a page says by itself. They came with it; where a number goes in, its place
// stands in braces.

export const words = JSON.parse(document.getElementById("words").textContent);

export function filled(sentence, given) {
  return sentence.replace(/\{(\w+)\}/g, (_, name) => given[name]);
}

// An age in words: `ages` tell from which on it is counted in seconds, minutes or hours.
export function aged(ages, ms) {
  const seconds = Math.floor(ms / 1000);
  const { per_s: per, say } = ages.find(({ below_s: below }) => below === null || seconds < below);
  return filled(say, { n: Math.floor(seconds / per) });
}
