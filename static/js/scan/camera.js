// The live picture, where the browser can read symbols itself (BarcodeDetector). Elsewhere nothing of it is shown.
const shared = (globalThis.rackside ??= {});
const EVERY_MS = 160;
const AGAIN_MS = 2500;

async function canRead() {
  if (!("BarcodeDetector" in globalThis) || !navigator.mediaDevices?.getUserMedia) return false;
  return (await BarcodeDetector.getSupportedFormats()).includes("qr_code");
}

shared.startCamera = async (parts, onText) => {
  if (!(await canRead())) return;
  parts.line.hidden = false;
  parts.button.addEventListener("click", async () => {
    const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment", width: { ideal: 1920 } } }).catch(() => null);
    if (!stream) {
      parts.aim.textContent = "The camera is not allowed here. Take a photo, or type three characters.";
      parts.live.hidden = false;
      return;
    }
    parts.line.hidden = true;
    parts.live.hidden = false;
    parts.video.srcObject = stream;
    parts.video.play().catch(() => {});
    watch(parts, stream, onText);
  });
};

function watch(parts, stream, onText) {
  const detector = new BarcodeDetector({ formats: ["qr_code"] });
  let last = { text: "", at: 0 };
  const look = async () => {
    if (!stream.active) return;
    const found = await detector.detect(parts.video).catch(() => []);
    for (const { rawValue } of found) {
      if (rawValue === last.text && Date.now() - last.at < AGAIN_MS) continue;
      last = { text: rawValue, at: Date.now() };
      onText(rawValue);
    }
    setTimeout(look, EVERY_MS);
  };
  document.addEventListener("visibilitychange", () => { if (document.hidden) for (const track of stream.getTracks()) track.stop(); });
  look();
}
