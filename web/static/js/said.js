// What became of a press, for as long as it is news: each is shown once, by its number.

export class Said {
  // `changed` is called when what is said has stood long enough.
  constructor(changed) {
    this.changed = changed;
    this.now = null;
    this.heard = "";
    this.timer = null;
  }

  hear(said) {
    const heard = said ? `${said.n} ${said.say}` : "";
    if (heard === this.heard) return;
    this.heard = heard;
    this.now = said;
    clearTimeout(this.timer);
    if (said?.left_ms) this.timer = setTimeout(() => this.end(), said.left_ms);
  }

  end() {
    this.now = null;
    this.changed();
  }
}
