// Paints by WebGL: the triangles as the program made them, texts from an atlas, and the ground kept as a texture.

const vertexShader = `
attribute vec2 at;
attribute vec4 colour;
uniform vec2 size;
varying vec4 tint;
#ifdef TEXTURED
attribute vec2 place;
varying vec2 found;
#endif
void main() {
  gl_Position = vec4(2.0 * at.x / size.x - 1.0, 1.0 - 2.0 * at.y / size.y, 0.0, 1.0);
  tint = vec4(colour.rgb * colour.a, colour.a);
#ifdef TEXTURED
  found = place;
#endif
}`;
const fragmentShader = `
precision mediump float;
varying vec4 tint;
#ifdef TEXTURED
varying highp vec2 found;
uniform sampler2D map;
#endif
void main() {
  gl_FragColor = tint;
#ifdef TEXTURED
  gl_FragColor *= texture2D(map, found);
#endif
}`;

function linked(gl, defines, attributes) {
  const program = gl.createProgram();
  for (const [kind, source] of [[gl.VERTEX_SHADER, vertexShader], [gl.FRAGMENT_SHADER, fragmentShader]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, defines + source);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
  }
  for (const [name, place] of Object.entries(attributes)) gl.bindAttribLocation(program, place, name);
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS)) throw new Error(gl.getProgramInfoLog(program));
  return {program, size: gl.getUniformLocation(program, "size")};
}

// A buffer for corners of so many bytes; each attribute: its place, numbers, their type, and where in a corner they begin.
function arrayOf(gl, bytes, ...attributes) {
  const buffer = gl.createBuffer();
  gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
  for (const [place, count, type, from] of attributes) {
    gl.enableVertexAttribArray(place);
    gl.vertexAttribPointer(place, count, type, type === gl.UNSIGNED_BYTE, bytes, from);
  }
  return buffer;
}

// Of any size: without smaller copies, and not to be repeated.
function textureOf(gl, filter) {
  const texture = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_2D, texture);
  for (const name of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER]) gl.texParameteri(gl.TEXTURE_2D, name, filter);
  for (const name of [gl.TEXTURE_WRAP_S, gl.TEXTURE_WRAP_T]) gl.texParameteri(gl.TEXTURE_2D, name, gl.CLAMP_TO_EDGE);
  return texture;
}

// It takes twice the time of a canvas then; not every browser counts that as a caveat.
function inSoftware(gl) {
  const named = gl.getExtension("WEBGL_debug_renderer_info");
  return /SwiftShader|llvmpipe|softpipe|Software|Basic Render/i.test(gl.getParameter(named ? named.UNMASKED_RENDERER_WEBGL : gl.RENDERER));
}

class GlPainter {
  static quadBytes = 6 * 20;  // x, y, place in the texture, colour
  static most = 1000;         // quads at a time

  constructor(canvas) {
    const gl = this.gl = canvas.getContext("webgl", {alpha: false, antialias: false, depth: false, failIfMajorPerformanceCaveat: true});
    if (!gl || inSoftware(gl)) throw new Error("no WebGL");
    this.canvas = canvas;
    this.plain = linked(gl, "", {at: 0, colour: 1});
    this.textured = linked(gl, "#define TEXTURED\n", {at: 2, place: 3, colour: 4});
    this.corners = arrayOf(gl, Drawing.cornerBytes, [0, 2, gl.FLOAT, 0], [1, 4, gl.UNSIGNED_BYTE, 8]);
    this.quads = arrayOf(gl, GlPainter.quadBytes / 6, [2, 2, gl.FLOAT, 0], [3, 2, gl.FLOAT, 8], [4, 4, gl.UNSIGNED_BYTE, 16]);
    this.quadData = new DataView(new ArrayBuffer(GlPainter.most * GlPainter.quadBytes));
    this.quadCount = 0;
    this.steps = [];
    this.ground = textureOf(gl, gl.NEAREST);
    this.frame = gl.createFramebuffer();
    gl.bindFramebuffer(gl.FRAMEBUFFER, this.frame);
    gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, this.ground, 0);
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    gl.pixelStorei(gl.UNPACK_PREMULTIPLY_ALPHA_WEBGL, true);
    gl.enable(gl.SCISSOR_TEST);
    gl.enable(gl.BLEND);
    gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
  }

  // Returns how many pixels to one of the picture triangles are to be made for: still, and while something is dragged.
  resize(width, height, scale) {
    const {gl, canvas} = this;
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    this.scale = scale;
    gl.viewport(0, 0, canvas.width, canvas.height);
    for (const [shader, w, h] of [[this.plain, canvas.width / scale, canvas.height / scale], [this.textured, canvas.width, canvas.height]]) {
      gl.useProgram(shader.program);
      gl.uniform2f(shader.size, w, h);
    }
    gl.bindTexture(gl.TEXTURE_2D, this.ground);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA, canvas.width, canvas.height, 0, gl.RGBA, gl.UNSIGNED_BYTE, null);
    this.kept = false;
    if (!this.atlas || this.atlas.width < canvas.width) {
      if (this.atlas) gl.deleteTexture(this.atlas.texture);
      this.atlas = new TextAtlas(gl, canvas.width);
    }
    return [scale, scale];
  }

  // `isNew`: the ground is not the one of the picture before; `box` says what of it is seen.
  paint(picture, ground, isNew, box, paper) {
    const {gl} = this, {width, height} = this.canvas, all = [0, 0, width, height];
    if (gl.isContextLost()) return;  // another painter is about to be chosen
    const seen = this.onDevice(box, all);
    if (!isNew && !this.kept) this.keepGround(ground, all, paper);
    this.kept = !isNew;
    this.clear(all, paper);
    isNew ? this.draw(ground, seen) : this.drawKept(seen);
    this.draw(picture, all);
  }

  // Only of one that stays: while it is dragged each picture has its own.
  keepGround(ground, all, paper) {
    const {gl} = this;
    gl.bindFramebuffer(gl.FRAMEBUFFER, this.frame);
    this.clear(all, paper);
    this.draw(ground, all);
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
  }

  drawKept([x, y, w, h]) {
    const {gl} = this, {width, height} = this.canvas;
    this.addQuad([x, y], [w, 0], [0, h], [x / width, 1 - y / height, (x + w) / width, 1 - (y + h) / height], 0xffffffff, this.ground);
    gl.disable(gl.BLEND);
    this.flush();
    gl.enable(gl.BLEND);
  }

  clear(part, paper) {
    const {gl} = this;
    this.cut(part);
    gl.clearColor((paper >> 16) / 255, ((paper >> 8) & 255) / 255, (paper & 255) / 255, 1);
    gl.clear(gl.COLOR_BUFFER_BIT);
  }

  cut([x, y, w, h]) {
    this.gl.scissor(x, this.canvas.height - y - h, w, h);
  }

  // Whole pixels of a box of the picture that lie within others.
  onDevice([x, y, w, h], [left, top, width, height]) {
    const {scale} = this, from = (v, least) => Math.max(least, Math.round(v * scale)), to = (v, most) => Math.min(most, Math.round(v * scale));
    const x0 = from(x, left), y0 = from(y, top);
    return [x0, y0, Math.max(0, to(x + w, left + width) - x0), Math.max(0, to(y + h, top + height) - y0)];
  }

  draw(drawing, within) {
    const {gl} = this;
    gl.bindBuffer(gl.ARRAY_BUFFER, this.corners);
    gl.bufferData(gl.ARRAY_BUFFER, drawing.corners(), gl.STREAM_DRAW);
    this.within = within;
    this.steps.push({part: within});
    drawing.paintBy(this);
    this.flush();
  }

  clip(box) {
    this.steps.push({part: this.onDevice(box, this.within)});
  }

  triangles(first, count) {
    this.steps.push({first, count});
  }

  text(text) {
    if (text.outline > 0) this.addText(text, text.outline * this.scale, text.outlineColour);
    this.addText(text, 0, text.colour);
  }

  addText({words, face, size, x, y, align, turned}, outline, colour) {
    const {scale} = this, find = () => this.atlas.find(words, face, size * scale, outline);
    let entry = find();
    if (!entry) {
      this.flush();
      this.atlas.clear();
      entry = find();
    }
    const {width, height, texture} = this.atlas, {left, top, w, h} = entry;
    const c = Math.cos(turned), s = Math.sin(turned), back = entry.advance * align / 2 + left;
    let at = [x * scale - c * back + s * top, y * scale - s * back - c * top];
    if (!turned) at = at.map(Math.round);  // sharp: a pixel of the texture is one of the device
    this.addQuad(at, [c * w, s * w], [-s * h, c * h],
      [entry.x / width, entry.y / height, (entry.x + w) / width, (entry.y + h) / height], colour, texture);
  }

  // From a corner along two sides; `place`: left, top, right and bottom in the texture.
  addQuad([x, y], [ax, ay], [bx, by], [left, top, right, bottom], colour, texture) {
    if (this.quadCount === GlPainter.most) this.flush();
    let at = this.quadCount * GlPainter.quadBytes;
    for (const [a, b] of [[0, 0], [1, 0], [1, 1], [0, 0], [1, 1], [0, 1]]) {
      const corner = [x + a * ax + b * bx, y + a * ay + b * by, a ? right : left, b ? bottom : top];
      for (const value of corner) this.quadData.setFloat32(at, value, true), at += 4;
      this.quadData.setUint32(at, colour);
      at += 4;
    }
    const last = this.steps.at(-1), first = 6 * this.quadCount++;
    last?.texture === texture ? last.count += 6 : this.steps.push({texture, first, count: 6});
  }

  flush() {
    const {gl} = this;
    gl.bindBuffer(gl.ARRAY_BUFFER, this.quads);
    gl.bufferData(gl.ARRAY_BUFFER, new Uint8Array(this.quadData.buffer, 0, this.quadCount * GlPainter.quadBytes), gl.STREAM_DRAW);
    for (const {part, texture, first, count} of this.steps) {
      if (part) {
        this.cut(part);
        continue;
      }
      gl.useProgram((texture ? this.textured : this.plain).program);
      if (texture) gl.bindTexture(gl.TEXTURE_2D, texture);
      gl.drawArrays(gl.TRIANGLES, first, count);
    }
    this.steps.length = this.quadCount = 0;
  }
}
