package segmental

import "errors"

// ErrSegmental is wrapped by every error about a segment, a joint, a hanger or a step that
// is not as it must be.
var ErrSegmental = errors.New("segmental")
