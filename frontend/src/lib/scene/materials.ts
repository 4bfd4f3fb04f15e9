// The finishes as materials: one look-up of light, darkened toward the axis of the rope, with a rim where a bead is lit.
import { Color, DataTexture, DoubleSide, FrontSide, LinearFilter, MeshMatcapMaterial, RGBAFormat, SRGBColorSpace } from "three";
import { FINISH_SIZE, finishPicture, type Finish } from "./finishes";

/** What all materials of a rope share and may change from frame to frame. */
export interface Shared {
  readonly accent: { value: Color };
  readonly paper: { value: Color };
  /** Half the thickness of the rope, mm. */
  readonly reach: { value: number };
}

const VERTEX_HEAD = `
#ifdef USE_INSTANCING
attribute vec4 aAway;
attribute float aLit;
#else
attribute float aDepth;
#endif
varying float vDepth;
varying float vLit;
uniform float uReach;
`;

// aAway.xyz points from the axis to the bead (in the space of the rope), its w is how far it lies off.
const VERTEX_BODY = `
#include <begin_vertex>
#ifdef USE_INSTANCING
vDepth = (aAway.w + dot(mat3(instanceMatrix) * transformed, aAway.xyz)) / uReach;
vLit = aLit;
#else
vDepth = aDepth / uReach;
vLit = 0.0;
#endif
`;

const FRAGMENT_HEAD = `
varying float vDepth;
varying float vLit;
uniform vec3 uAccent;
uniform vec3 uPaper;
`;

const FRAGMENT_BODY = `
float shade = mix(0.34, 1.0, smoothstep(0.2, 0.82, vDepth));
outgoingLight *= shade;
float edge = 1.0 - clamp(normal.z, 0.0, 1.0);
float strong = step(0.9, vLit);
outgoingLight = mix(outgoingLight, min(outgoingLight * 1.45 + 0.04, vec3(1.0)), strong);
float ring = smoothstep(mix(0.52, 0.24, strong), mix(0.6, 0.32, strong), edge) * step(0.1, vLit);
float outer = smoothstep(0.68, 0.76, edge) * strong;
outgoingLight = mix(outgoingLight, mix(uAccent, uPaper, outer), ring);
#include <opaque_fragment>
`;

/** A material; `dispose` on it frees its picture too. */
export function surface(colour: string, finish: Finish, shared: Shared): MeshMatcapMaterial {
  const picture = new DataTexture(finishPicture(colour, finish), FINISH_SIZE, FINISH_SIZE, RGBAFormat);
  picture.colorSpace = SRGBColorSpace;
  picture.magFilter = LinearFilter;
  picture.minFilter = LinearFilter;
  picture.needsUpdate = true;
  const material = new MeshMatcapMaterial({ matcap: picture, side: finish === "metal" ? DoubleSide : FrontSide });
  material.onBeforeCompile = (shader) => {
    shader.uniforms.uAccent = shared.accent;
    shader.uniforms.uPaper = shared.paper;
    shader.uniforms.uReach = shared.reach;
    shader.vertexShader = VERTEX_HEAD + shader.vertexShader.replace("#include <begin_vertex>", VERTEX_BODY);
    // The view has no vanishing point: every line of sight runs straight back, wherever on the page it is.
    shader.fragmentShader =
      FRAGMENT_HEAD +
      shader.fragmentShader
        .replace("normalize( vViewPosition )", "vec3( 0.0, 0.0, 1.0 )")
        .replace("#include <opaque_fragment>", FRAGMENT_BODY);
  };
  material.addEventListener("dispose", () => picture.dispose());
  return material;
}
