package memory

import (
	"bytes"
	"context"
	"sync"

	"chargehand/flow/event"
	"chargehand/store"
)

// Photos is a store.Photos in memory. The zero value is empty and keeps photos
// up to store.MaxPhoto.
type Photos struct {
	Max int64 // 0 means store.MaxPhoto

	mu   sync.RWMutex
	kept map[string][]byte
}

var _ store.Photos = (*Photos)(nil)

func (p *Photos) Put(ctx context.Context, content []byte) (string, error) {
	limit := p.Max
	if limit == 0 {
		limit = store.MaxPhoto
	}
	if int64(len(content)) > limit {
		return "", &store.TooLarge{Size: int64(len(content)), Max: limit}
	}
	if err := ctx.Err(); err != nil {
		return "", err
	}
	name := store.PhotoName(content)
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.kept == nil {
		p.kept = map[string][]byte{}
	}
	if _, ok := p.kept[name]; !ok {
		p.kept[name] = bytes.Clone(content)
	}
	return name, nil
}

func (p *Photos) Get(ctx context.Context, name string) ([]byte, error) {
	p.mu.RLock()
	defer p.mu.RUnlock()
	content, ok := p.kept[name]
	if !ok {
		return nil, event.ErrUnknown
	}
	return bytes.Clone(content), ctx.Err()
}
