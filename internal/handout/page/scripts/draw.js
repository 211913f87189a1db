// Drawing with WebGL 2: the baked light times the texture, in linear light, and before it what stands behind everything.
import {halves, matrix} from './camera.js';
/** @import {Eye} from './camera.js' */
/** @import {Model, Part, Surface, Texture} from './model.js' */

/**
 * @typedef {Surface & {part: Part, from: number, away: boolean}} Drawn from is its first vertex in the buffer; away, it is drawn elsewhere
 * @typedef {{v: WebGLVertexArrayObject, n: number}} Shape
 * @typedef {{shape: Shape, ink: number[], stripe?: number, behind?: boolean}} Mark
 * @typedef {{use: WebGLProgram, set(name: string): WebGLUniformLocation | null}} Program
 * @typedef {{plain(points: number[]): Shape, ready: Promise<unknown>, addressed: Map<string, WebGLTexture>, programs: {[K in keyof typeof programs]: Program}, drop(): void,
 *   move(moved: (part: Part) => boolean, to: (x: number, y: number, z: number) => number[]): void, surfaces(): Drawn[],
 *   show(shown: (part: Part) => boolean): void, draw(eye: Eye, marks: Mark[]): void}} Stage
 */

const programs = {
	booth: [`#version 300 es
in vec3 at; in vec3 light; in vec2 on;
uniform mat4 eye;
out vec3 lit; out vec2 place;
void main() { lit = light; place = on; gl_Position = eye * vec4(at, 1.0); }`, `#version 300 es
precision highp float;
in vec3 lit; in vec2 place;
uniform sampler2D image;
out vec4 colour;
vec3 signal(vec3 c) { return mix(12.92 * c, 1.055 * pow(max(c, 0.0031308), vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c)); } // IEC 61966-2-1
void main() { colour = vec4(signal(lit * texture(image, place).rgb), 1.0); }`],
	behind: [`#version 300 es
in vec3 at;
out float up;
void main() { up = at.y; gl_Position = vec4(at.xy, 1.0, 1.0); }`, `#version 300 es
precision highp float;
in float up;
uniform vec3 low, high, ground;
uniform vec2 slopes; // of the middle of the window, and of half its height
uniform vec4 air;    // height of the eye, rise, radius, how soon the ground fades
uniform float ends;  // where an indoor floor ends; 0 outdoors
out vec4 colour;
vec3 signal(vec3 c) { return mix(12.92 * c, 1.055 * pow(max(c, 0.0031308), vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c)); }
void main() {
	float slope = slopes.x + up * slopes.y;
	float away = slope < 0.0 ? air.x / -slope : 1e9;
	vec3 c;
	if (ends > 0.0 && away < ends) c = ground;
	else if (ends == 0.0 && slope < 0.0) c = mix(ground, low, 1.0 - exp(-max(0.0, away - air.z) / air.w));
	else c = mix(low, high, 1.0 - exp(-air.y * max(0.0, slope)));
	colour = vec4(signal(c), 1.0);
}`],
	mark: [`#version 300 es
in vec3 at;
uniform mat4 eye;
void main() { gl_Position = eye * vec4(at, 1.0); }`, `#version 300 es
precision highp float;
uniform vec4 ink;
uniform float stripe; // pixels from stripe to stripe; 0: plain
out vec4 colour;
void main() {
	colour = ink;
	if (stripe > 0.0) {
		float s = mod(gl_FragCoord.x + gl_FragCoord.y, stripe);
		colour = s < stripe * 0.5 ? vec4(1.0, 1.0, 1.0, ink.a) : ink;
	}
}`],
};

const sharpest = 1280; // pixels of a texture's long side: more would fill a phone's memory

// makeStage readies a canvas to draw the model before what stands behind it. It throws if the browser cannot. Given the stage
// that the canvas had before, it takes over programs and those textures that have an address, and drops the rest.
/** @type {(canvas: HTMLCanvasElement, model: Model, air: Go.Behind, redraw: () => void, before?: Stage) => Stage} */
export function makeStage(canvas, model, air, redraw, before) {
	const gl = canvas.getContext('webgl2', {alpha: false, antialias: true, powerPreference: 'low-power'});
	if (!gl) throw new Error('no WebGL 2');
	/** @type {(kind: number, text: string) => WebGLShader} */
	const shader = (kind, text) => {
		const s = /** @type {WebGLShader} */ (gl.createShader(kind));
		gl.shaderSource(s, text);
		gl.compileShader(s);
		return s;
	};
	/** @type {(texts: string[]) => Program} */
	const program = ([vertex, fragment]) => {
		const p = gl.createProgram();
		gl.attachShader(p, shader(gl.VERTEX_SHADER, vertex));
		gl.attachShader(p, shader(gl.FRAGMENT_SHADER, fragment));
		['at', 'light', 'on'].forEach((name, i) => gl.bindAttribLocation(p, i, name));
		gl.linkProgram(p);
		if (!gl.getProgramParameter(p, gl.LINK_STATUS) && !gl.isContextLost()) throw new Error(gl.getProgramInfoLog(p) || '');
		const places = new Map();
		return {
			use: p,
			set(name) {
				if (!places.has(name)) places.set(name, gl.getUniformLocation(p, name));
				return places.get(name);
			},
		};
	};
	/** @type {WebGLBuffer[]} */
	const buffers = [];
	/** @type {WebGLVertexArrayObject[]} */
	const sheets = [];
	const buffer = () => {
		const b = gl.createBuffer();
		buffers.push(b);
		return b;
	};
	const vertexArray = () => {
		const v = gl.createVertexArray();
		sheets.push(v);
		return v;
	};
	/** @type {(n: number, data: BufferSource, size: number, type: number, normalized: boolean) => void} */
	const attribute = (n, data, size, type, normalized) => {
		gl.bindBuffer(gl.ARRAY_BUFFER, buffer());
		gl.bufferData(gl.ARRAY_BUFFER, data, gl.STATIC_DRAW);
		gl.enableVertexAttribArray(n);
		gl.vertexAttribPointer(n, size, type, normalized, 0, 0);
	};
	const {booth, behind, mark} = before ? before.programs : {booth: program(programs.booth), behind: program(programs.behind), mark: program(programs.mark)};
	/** @type {Map<string, WebGLTexture>} */
	const addressed = before ? before.addressed : new Map();

	// All vertices lie in one buffer; what is drawn with one texture is drawn at once.
	/** @type {Drawn[]} */
	const surfaces = model.parts.flatMap((part) => part.surfaces.map((s) => ({...s, part, from: 0, away: false})));
	const total = surfaces.reduce((n, s) => n + s.at.length / 3, 0);
	const at = new Float32Array(3 * total), light = new Uint16Array(4 * total), on = new Float32Array(2 * total);
	let from = 0;
	for (const s of surfaces) {
		at.set(s.at, 3 * from);
		light.set(s.light, 4 * from);
		on.set(s.on, 2 * from);
		s.from = from;
		from += s.at.length / 3;
	}
	const whole = vertexArray();
	gl.bindVertexArray(whole);
	const places = buffer();
	gl.bindBuffer(gl.ARRAY_BUFFER, places);
	gl.bufferData(gl.ARRAY_BUFFER, at, gl.STATIC_DRAW);
	gl.enableVertexAttribArray(0);
	gl.vertexAttribPointer(0, 3, gl.FLOAT, false, 0, 0);
	attribute(1, light, 4, gl.UNSIGNED_SHORT, true);
	attribute(2, on, 2, gl.FLOAT, false);
	const corners = buffer();
	/** @type {{texture: number, twoSided: boolean, start: number, count: number, surfaces: Drawn[]}[]} */
	let batches = [];

	const sheet = vertexArray();
	gl.bindVertexArray(sheet);
	attribute(0, new Float32Array([-1, -1, 0, 3, -1, 0, -1, 3, 0]), 3, gl.FLOAT, false);

	// plain is a list of triangles for marks: a route, the faces of works.
	/** @type {Stage['plain']} */
	const plain = (points) => {
		const v = vertexArray();
		gl.bindVertexArray(v);
		attribute(0, new Float32Array(points), 3, gl.FLOAT, false);
		return {v, n: points.length / 3};
	};

	const filter = gl.getExtension('EXT_texture_filter_anisotropic');
	/** @type {(clamp: boolean, pixels: Uint8Array | ImageBitmap) => WebGLTexture} */
	const texture = (clamp, pixels) => {
		const t = gl.createTexture();
		gl.bindTexture(gl.TEXTURE_2D, t);
		if (pixels instanceof Uint8Array) gl.texImage2D(gl.TEXTURE_2D, 0, gl.SRGB8_ALPHA8, 1, 1, 0, gl.RGBA, gl.UNSIGNED_BYTE, pixels);
		else gl.texImage2D(gl.TEXTURE_2D, 0, gl.SRGB8_ALPHA8, gl.RGBA, gl.UNSIGNED_BYTE, pixels);
		gl.generateMipmap(gl.TEXTURE_2D);
		gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.LINEAR_MIPMAP_LINEAR);
		for (const side of [gl.TEXTURE_WRAP_S, gl.TEXTURE_WRAP_T]) gl.texParameteri(gl.TEXTURE_2D, side, clamp ? gl.CLAMP_TO_EDGE : gl.REPEAT);
		if (filter) gl.texParameteri(gl.TEXTURE_2D, filter.TEXTURE_MAX_ANISOTROPY_EXT, Math.min(8, gl.getParameter(filter.MAX_TEXTURE_MAX_ANISOTROPY_EXT)));
		return t;
	};
	const white = texture(true, new Uint8Array([255, 255, 255, 255]));
	const grey = texture(true, new Uint8Array([200, 198, 194, 255])); // until a picture is there
	/** @param {Texture} t */
	const named = (t) => (t.address ? `${t.address} ${t.clamp}` : '');
	const images = model.textures.map((t) => addressed.get(named(t)) || grey);
	const ready = Promise.all(model.textures.map(async (t, i) => {
		if (images[i] !== grey) return;
		let pixels = await createImageBitmap(await t.blob());
		const sooner = addressed.get(named(t));
		if (sooner) { // another stage had it
			images[i] = sooner;
			pixels.close();
			redraw();
			return;
		}
		const long = Math.max(pixels.width, pixels.height);
		if (long > sharpest) {
			/** @type {ImageBitmapOptions} */
			const small = {resizeWidth: Math.round(pixels.width * sharpest / long), resizeHeight: Math.round(pixels.height * sharpest / long), resizeQuality: 'high'};
			const full = pixels;
			pixels = await createImageBitmap(full, small);
			full.close();
		}
		images[i] = texture(t.clamp, pixels);
		if (t.address) addressed.set(named(t), images[i]);
		pixels.close();
		redraw();
	}));
	if (before) before.drop();

	return {
		plain, ready, addressed, programs: {booth, behind, mark},
		// drop gives back what no other stage takes over.
		drop() {
			for (const b of buffers) gl.deleteBuffer(b);
			for (const v of sheets) gl.deleteVertexArray(v);
			const shared = new Set(addressed.values());
			for (const t of [white, grey, ...images]) if (!shared.has(t)) gl.deleteTexture(t);
		},
		// move draws the parts that moved says yes to where to brings their points, until the next move.
		move(moved, to) {
			gl.bindBuffer(gl.ARRAY_BUFFER, places);
			for (const s of surfaces) {
				const is = moved(s.part);
				if (!is && !s.away) continue;
				s.away = is;
				const put = is ? new Float32Array(s.at.length) : s.at;
				if (is) for (let i = 0; i < put.length; i += 3) [put[i], put[i + 1], put[i + 2]] = to(s.at[i], s.at[i + 1], s.at[i + 2]);
				gl.bufferSubData(gl.ARRAY_BUFFER, 12 * s.from, put);
			}
		},
		surfaces: () => batches.flatMap((b) => b.surfaces),
		// show takes in the parts that shown says yes to.
		show(shown) {
			/** @type {Map<number, Drawn[]>} */
			const sorted = new Map();
			for (const s of surfaces) {
				if (!shown(s.part)) continue;
				const key = s.texture * 2 + (s.twoSided ? 1 : 0);
				const group = sorted.get(key);
				if (group) group.push(s);
				else sorted.set(key, [s]);
			}
			batches = [];
			const count = surfaces.reduce((n, s) => n + s.corners.length, 0);
			const list = new Uint32Array(count);
			let n = 0;
			for (const group of sorted.values()) {
				const start = n;
				for (const s of group) for (const c of s.corners) list[n++] = s.from + c;
				batches.push({texture: group[0].texture, twoSided: group[0].twoSided, start, count: n - start, surfaces: group});
			}
			gl.bindVertexArray(whole);
			gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, corners);
			gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, list.subarray(0, n), gl.STATIC_DRAW);
		},
		// draw draws the booth for the eye; marks are lists of triangles with their ink.
		draw(eye, marks) {
			const aspect = canvas.width / canvas.height;
			const m = matrix(eye, aspect);
			gl.viewport(0, 0, canvas.width, canvas.height);
			gl.depthMask(true);
			gl.clear(gl.DEPTH_BUFFER_BIT);
			gl.disable(gl.BLEND);
			gl.disable(gl.DEPTH_TEST);
			gl.disable(gl.CULL_FACE);
			gl.useProgram(behind.use);
			gl.bindVertexArray(sheet);
			gl.uniform3fv(behind.set('low'), air.low);
			gl.uniform3fv(behind.set('high'), air.high);
			gl.uniform3fv(behind.set('ground'), air.ground);
			gl.uniform2f(behind.set('slopes'), eye.shift, halves(eye, aspect)[1]);
			gl.uniform4f(behind.set('air'), eye.y, air.rise, air.radius, air.fades);
			gl.uniform1f(behind.set('ends'), air.indoor ? air.ends : 0);
			gl.drawArrays(gl.TRIANGLES, 0, 3);

			gl.enable(gl.DEPTH_TEST);
			gl.depthFunc(gl.LESS);
			gl.useProgram(booth.use);
			gl.bindVertexArray(whole);
			gl.uniformMatrix4fv(booth.set('eye'), false, m);
			for (const b of batches) {
				if (b.twoSided) gl.disable(gl.CULL_FACE);
				else gl.enable(gl.CULL_FACE);
				gl.bindTexture(gl.TEXTURE_2D, b.texture < 0 ? white : images[b.texture]);
				gl.drawElements(gl.TRIANGLES, b.count, gl.UNSIGNED_INT, 4 * b.start);
			}

			gl.useProgram(mark.use);
			gl.uniformMatrix4fv(mark.set('eye'), false, m);
			gl.enable(gl.BLEND);
			gl.blendFunc(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA);
			gl.enable(gl.POLYGON_OFFSET_FILL);
			gl.depthMask(false);
			for (const k of marks) {
				if (k.behind) gl.enable(gl.CULL_FACE);
				else gl.disable(gl.CULL_FACE);
				gl.depthFunc(k.behind ? gl.GREATER : gl.LEQUAL);
				gl.polygonOffset(k.behind ? -1 : -2, k.behind ? -8 : -2);
				gl.uniform4fv(mark.set('ink'), k.ink);
				gl.uniform1f(mark.set('stripe'), k.stripe || 0);
				gl.bindVertexArray(k.shape.v);
				gl.drawArrays(gl.TRIANGLES, 0, k.shape.n);
			}
			gl.disable(gl.POLYGON_OFFSET_FILL);
		},
	};
}

