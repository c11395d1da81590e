// The program once more, in a worker and without a page: it works odds out while the page draws. First comes the compiled
// program, then questions as numbers; no numbers: to forget the last. The worker hears nothing while it works, so it works
// in pieces and looks between two of them: on a curved green most take under a tenth of a second, the longest a few. To end
// it for a newer question would cost more: on the same green the second of work on what follows a miss, done once for all.

let program, newest, working = false;

self.onmessage = async ({data}) => {
  try {
    if (data instanceof WebAssembly.Module) program = await startProgram(data, {host: {answer: numbers => postMessage(numbers)}});
    else newest = data;
    if (!program || !newest) return;
    callWithNumbers(program, "dewtrail_ask", newest);
    newest = null;
    if (!working) work();
  } catch {
    postMessage(null);  // no use any more
  }
};

function work() {
  try {
    working = program.ccall("dewtrail_work", "number", [], []) !== 0;
    if (working) setTimeout(work);
  } catch {
    postMessage(null);
  }
}
