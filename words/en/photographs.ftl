# Photographs: what is odd about a file, what is wrong with it, why it has no preview. The English is also in crates/photo
# (the log keeps it); a test of crates/actions holds the two together.

photo-problem = photograph “{ $photo }”: { $said }
photo-apart-not-started = the process that decodes photographs cannot be started: { $said }
photo-apart-ended = decoding this photograph took too long or broke off; nothing else was touched: open it in a picture program, save it as an ordinary JPEG, and use that
photo-problem-empty = the file is empty (0 bytes); copy it again from the camera, or take the photograph again
photo-problem-not-one = this is { $kind }, not a photograph in JPEG, PNG, WebP or HEIC; { $hint }
photo-problem-no-copy = no copy without location can be made of { $kind }: only JPEG, PNG and WebP are rewritten here; export it as JPEG and make the copy of that
photo-problem-cut-off = the file stops at byte { $bytes }, before any of the picture (the part that starts at byte { $at } is cut off); copy it again from the camera and compare the file sizes
photo-problem-damaged = the file is damaged at byte { $at }: { $what }; copy it again from the camera, or open it in a picture program and save it as a new JPEG
photo-problem-no-size = at byte { $at } the file declares { $width } × { $height } pixels; a picture needs both sides, so copy it again from the camera or save it as a new JPEG
photo-problem-too-many-pixels = at byte { $at } the file declares { $width } × { $height } pixels, { $pixels } in all, and the limit is { $limit }; set the camera to a smaller picture size or save a smaller copy as JPEG
photo-problem-too-narrow = at byte { $at } the file declares { $width } × { $height } pixels, one side more than { $limit } times the other; crop it, or take the photograph again
photo-problem-undecodable = the picture cannot be decoded ({ $reason }); the original is untouched: open it in a picture program and save it as an ordinary JPEG to get a preview
photo-problem-undrawn = the marks cannot be drawn into a copy ({ $reason }); the original is untouched
photo-problem-unencodable = the preview could not be encoded ({ $reason }); the original is untouched, try again

photo-damage-second-start = a second start of a picture
photo-damage-short-segment = a segment shorter than its own length field
photo-damage-long-segment = a segment that claims to go on behind the end of the file
photo-damage-unknown-segment = a segment that is neither a well-formed part of a picture nor known extra data
photo-damage-short-frame = a frame too short to declare a size
photo-damage-ends-before = the file ends its picture before it began
photo-damage-stray-data = picture data outside of any scan
photo-damage-no-header = the first chunk does not declare a picture
photo-damage-no-picture-first = the first chunk neither is a picture nor declares one
photo-damage-unknown-chunk = a chunk that is neither a well-formed part of a picture nor known extra data
photo-damage-stops-before-last = the file stops before its last chunk; what is behind its last whole one cannot be copied
photo-damage-moving = a moving picture; save one of its pictures as JPEG and make the copy of that
photo-damage-not-one-whole = not exactly one whole picture; copy the file again from where it came
photo-damage-no-size-said = the container does not say how large its picture is

photo-looks-jpeg = a JPEG picture
photo-looks-png = a PNG picture
photo-looks-webp = a WebP picture
photo-looks-heic = a HEIC picture
photo-looks-avif = an AVIF picture
photo-looks-gif = a GIF picture
photo-looks-tiff = a TIFF or camera raw picture
photo-looks-bmp = a BMP picture
photo-looks-jpeg-2000 = a JPEG 2000 picture
photo-looks-jpeg-xl = a JPEG XL picture
photo-looks-film = a film (MP4 or QuickTime)
photo-looks-pdf = a PDF document
photo-looks-zip = a ZIP archive or office document
photo-looks-markup = XML or HTML text
photo-looks-text = plain text
photo-looks-zeros = a file of zero bytes only
photo-looks-unknown = an unknown kind of file (it begins with { $bytes })

photo-instead-film = take a still photograph, or save one frame of the film as JPEG
photo-instead-itself = choose the photograph itself, a .jpg file
photo-instead-zeros = the copy never arrived: copy it again from the camera
photo-instead-raw = set the camera to save JPEG beside its raw file, or export this one as JPEG
photo-instead-export = open it in a picture program, export it as JPEG and take that in

photo-odd-no-preview = no preview: { $why }; the original is kept
photo-odd-blocks = { $n } EXIF blocks; the first one counts
photo-odd-exif = EXIF is damaged ({ $faults }); what could be read is used
photo-odd-orientation = EXIF orientation { $value } is not one of 1 to 8; shown as stored
photo-odd-orientation-no-number = EXIF orientation is not a number; shown as stored
photo-odd-place = EXIF latitude or longitude cannot be read as a place on the earth
photo-odd-place-blanked = EXIF location fields are all zero: blanked before the picture came here
photo-odd-place-unread = EXIF points to a location that cannot be read; the picture counts as located
photo-odd-clock = EXIF time taken “{ $shown }”: the camera's clock was not set; no time is used
photo-odd-time = EXIF time taken “{ $shown }” is not a time like 2026:04:14 09:30:00; no time is used
photo-odd-offset = EXIF offset from UTC “{ $shown }” is not like -05:00; the time taken stays local
photo-odd-fraction = EXIF part of a second “{ $shown }” is not digits; dropped
photo-odd-time-range = EXIF time taken with its offset from UTC is out of range; it stays local
photo-odd-behind = { $bytes } bytes follow the end of the picture (often a second picture or a short film); they stay in the original and are left out of copies without location
photo-odd-stops = the file stops at byte { $at } before the picture's end; the lower part may be missing: copy it again
photo-odd-damaged = the file is damaged at byte { $at } ({ $what }); part may be missing
photo-odd-data-damaged = the picture data is damaged at byte { $at }; part of it may look wrong
photo-odd-frames = { $n } frames; the size is that of the first
photo-odd-part-missing = part of what the container points to is not in the file: copy it again

photo-why-not-decoded = { $kind } is not decoded here
photo-why-memory = decoding it would take { $needed } MB of memory, and the limit is { $limit } MB
photo-why-components = it has { $count } color components; 1, 3 and 4 are decoded here
photo-why-bits = it has { $bits } bits per sample; 8 are decoded here
photo-why-process = it is coded by JPEG process SOF{ $process } (lossless, hierarchical or arithmetic); SOF0, SOF1 and SOF2 are decoded here
photo-why-two-sizes = it declares two different sizes
photo-why-decoder = { $said }
