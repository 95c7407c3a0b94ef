package assess

import "hillset/engine/section"

func (j *job) ribChecks(v *section.View, sr *stageResult) error { return nil }
