package content

func (l *loader) readLogbook() {}
