// The distance where the last turn must come from the other side: go past, then come back.

export class Past {
  constructor() {
    this.been = false;
  }

  distance(toGo, { way, past }) {
    const back = way === "up" ? "down" : "up";
    const decimals = (toGo.split(".")[1] ?? "").length;
    const size = (value) => Math.abs(value).toFixed(decimals);
    const ahead = Number(toGo) * (way === "up" ? 1 : -1); // below zero: past the stop-at
    const turn = ahead + Number(past);
    if (Number(size(turn)) === 0 || turn < 0) this.been = true;
    else if (ahead > Number(past)) this.been = false; // so far back that it takes another run
    if (!this.been) return { way, say: `${way} ${size(turn)}, then back` };
    if (Number(size(ahead)) === 0) return { way: "there", say: "Stop: you are there" };
    if (ahead < 0) return { way: back, say: `Come back: ${back} ${size(ahead)}` };
    return { way, say: `${way} ${size(ahead)} to go` };
  }
}
