"""Why a photo of a tag was not read, and what to do: told to walk-ins in their language."""

from webapp.words.language import later

#: By the code of the refusal (tags.opening.REFUSALS), or of what was seen in the photo instead of a tag.
NOT_READ = {
    "missing": later("Take or choose a photo first."),
    "empty": later("The photo is empty. Please take it again."),
    "heavy": later(
        "This photo has more than 30 MB. Please choose a smaller size in the camera's settings, or send a JPEG."
    ),
    "phone_only": later("This is a HEIC or AVIF picture, which cannot be read here. Please send a JPEG."),
    "no_picture": later("This is not a picture that can be read. Please send a JPEG, PNG or WebP."),
    "odd": later("This JPEG is put together in an unusual way. Please take the photo again."),
    "damaged": later("This photo is damaged or was cut short on the way. Please send it again."),
    "pixels": later(
        "This picture has too many pixels; 60 million is the most for a JPEG, 20 million for PNG and WebP. Please send "
        "a smaller JPEG."
    ),
    "not_ours": later(
        "There is a symbol in this photo, but it is not one of ours. It leads elsewhere and we do not follow it."
    ),
    "bad_check": later("A tag was seen but misread. Take the photo again, closer and without glare."),
    "nothing": later(
        "No tag was found. Hold the phone 15 to 20 cm away, straight above, without flash; under blue light ask for "
        "white light or type the code."
    ),
}
