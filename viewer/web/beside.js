// The worker that works odds out, as the page has it: made with the first question, and replaced, twice at most, when it
// dies or says nothing any more. After that, and where there can be none, the page's own program does it.

class Beside {
  constructor(compiled, hear) {
    this.compiled = compiled;
    this.hear = hear;  // of numbers: whether more is to come; none: no more will
    this.left = 3;
    this.silence_ms = 20000;  // a piece of work takes a second or two on a slow phone
  }

  // False where there is nobody to answer. No numbers: nobody wants an answer any more.
  ask(numbers) {
    this.asked = numbers.length ? numbers : null;
    if (this.worker) this.worker.postMessage(numbers);
    else if (this.asked) this.begin();
    this.watch();
    return Boolean(this.worker);
  }

  begin() {
    if (!this.left) return;
    --this.left;
    try {
      this.address ??= URL.createObjectURL(new Blob([script], {type: "text/javascript"}));
      const worker = this.worker = new Worker(this.address);
      worker.onmessage = ({data}) => data ? this.answered(worker, data) : this.replace(worker);
      worker.onerror = worker.onmessageerror = event => {
        event.preventDefault();
        this.replace(worker);
      };
      worker.postMessage(this.compiled);
      worker.postMessage(this.asked);
    } catch {
      this.worker?.terminate();
      this.worker = null;
      this.left = 0;
    }
  }

  answered(worker, numbers) {
    if (worker !== this.worker) return;
    if (!this.hear(numbers)) this.asked = null;
    this.watch();
  }

  watch() {
    clearTimeout(this.watching);
    if (this.worker && this.asked) this.watching = setTimeout(() => this.replace(this.worker), this.silence_ms);
  }

  replace(worker) {
    if (worker !== this.worker) return;
    worker.terminate();
    this.worker = null;
    if (this.asked) this.begin();
    this.watch();
    if (!this.worker && this.asked) this.hear(new Float64Array());
  }
}
