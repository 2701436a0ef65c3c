// Pictures are made small on the phone: 2016 pixels at most, JPEG, which also leaves out where they were taken.
const shared = (globalThis.rackside ??= {});
const LONGEST_PX = 2016;

async function shrunk(file) {
  try {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, LONGEST_PX / Math.max(picture.width, picture.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(picture.width * scale);
    canvas.height = Math.round(picture.height * scale);
    canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    return await new Promise((resolve) => canvas.toBlob((blob) => resolve(blob || file), "image/jpeg", 0.85));
  } catch {
    return file;
  }
}

async function base64(blob) {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let letters = "";
  for (let at = 0; at < bytes.length; at += 0x8000) letters += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(letters);
}

shared.fileItem = async (field, file) => {
  const small = file.type.startsWith("image/") ? await shrunk(file) : file;
  return { field, name: file.name.slice(0, 120) || "picture.jpg", type: small.type || "image/jpeg", data: await base64(small) };
};
