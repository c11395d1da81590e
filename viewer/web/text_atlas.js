// Texts as they lie in a texture, white, each drawn once for its face, size and outline.

class TextAtlas {
  // No text is wider than what is seen.
  constructor(gl, width) {
    const most = gl.getParameter(gl.MAX_TEXTURE_SIZE);
    this.gl = gl;
    this.width = Math.min(most, Math.max(1024, width));
    this.height = Math.min(most, 2048);
    this.texture = textureOf(gl, gl.LINEAR);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.LUMINANCE_ALPHA, this.width, this.height, 0, gl.LUMINANCE_ALPHA, gl.UNSIGNED_BYTE, null);
    this.context = document.createElement("canvas").getContext("2d", {willReadFrequently: true});
    this.makeRoom(this.width, 64);
    this.clear();
  }

  clear() {
    this.known = new Map();
    this.x = this.y = this.rowHeight = 0;
  }

  // A new size of a canvas forgets what was set.
  makeRoom(width, height) {
    const {canvas} = this.context;
    if (canvas.width >= width && canvas.height >= height) return;
    canvas.width = Math.max(canvas.width, width);
    canvas.height = Math.max(canvas.height, height);
    Object.assign(this.context, {textRendering: "geometricPrecision", lineJoin: "round", fillStyle: "#fff", strokeStyle: "#fff"});
  }

  // Where a text lies, its pen's place in it and how far the pen goes, in pixels; null where it has no room.
  // `outline` > 0: its edge, so wide to either side.
  find(words, face, size, outline) {
    const key = `${face} ${size} ${outline} ${words}`;
    let entry = this.known.get(key);
    if (!entry) {
      entry = this.measured(words, face, size, outline);
      if (!this.place(entry)) return null;
      this.draw(entry, words, face, size, outline);
      this.known.set(key, entry);
    }
    return entry;
  }

  measured(words, face, size, outline) {
    setFont(this.context, face, size);
    const m = this.context.measureText(words), margin = outline + 1;
    const left = Math.ceil(m.actualBoundingBoxLeft + margin), top = Math.ceil(m.actualBoundingBoxAscent + margin);
    const w = left + Math.ceil(m.actualBoundingBoxRight + margin), h = top + Math.ceil(m.actualBoundingBoxDescent + margin);
    return {left, top, w: Math.min(w, this.width), h: Math.min(h, this.height), advance: m.width};
  }

  // In rows, as letters on a page.
  place(entry) {
    if (this.x + entry.w > this.width) {
      this.x = 0;
      this.y += this.rowHeight;
      this.rowHeight = 0;
    }
    if (this.y + entry.h > this.height) return false;
    entry.x = this.x;
    entry.y = this.y;
    this.x += entry.w;
    this.rowHeight = Math.max(this.rowHeight, entry.h);
    return true;
  }

  draw({x, y, w, h, left, top}, words, face, size, outline) {
    const {gl, context} = this;
    this.makeRoom(w, h);
    setFont(context, face, size);
    context.clearRect(0, 0, w, h);
    context.lineWidth = 2 * outline;
    outline > 0 ? context.strokeText(words, left, top) : context.fillText(words, left, top);
    gl.bindTexture(gl.TEXTURE_2D, this.texture);
    gl.texSubImage2D(gl.TEXTURE_2D, 0, x, y, gl.LUMINANCE_ALPHA, gl.UNSIGNED_BYTE, context.getImageData(0, 0, w, h));
  }
}
