package store

import (
	"crypto/sha256"
	"encoding/hex"
)

// MaxPhoto is the size up to which photos are kept unless a store is told
// otherwise: more than a phone makes, less than what fills a disk by mistake.
const MaxPhoto = 32 << 20

// PhotoName is the name of a photo: the SHA-256 of its content in hex.
func PhotoName(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}

// IsPhotoName says whether s can be the name of a photo, so that no other text
// is ever made into a path.
func IsPhotoName(s string) bool {
	if len(s) != 2*sha256.Size {
		return false
	}
	for _, c := range []byte(s) {
		if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}
