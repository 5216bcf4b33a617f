package builder

import (
	"cmp"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"caseleaf/content/privacy"
)

// planPictures gives every picture its published name: the id of the case or
// decision that shows it first, and a number. The name an author gave it is
// nowhere in the handout.
func (s *Site) planPictures() {
	s.pictures = map[string]string{}
	name := func(folder, id string, pictures []string) {
		for i, file := range pictures {
			if _, taken := s.pictures[file]; !taken {
				s.pictures[file] = fmt.Sprintf("%s/%s-%02d%s", folder, fileStem(id), i+1, strings.ToLower(path.Ext(file)))
			}
		}
	}
	for _, c := range s.Bank.Cases {
		name("cases", c.ID.Value, shownBy(c))
	}
	for _, d := range s.Bank.Decisions {
		name("decisions", d.ID.Value, d.Body.Pictures)
	}
	s.sizePictures()
}

// addPictures puts the pictures that pages show among the files.
func (s *Site) addPictures(files map[string][]byte) error {
	if s.Options.BankFiles == nil {
		return nil
	}
	for file, published := range s.pictures {
		data, err := s.picture(file)
		if err = cmp.Or(err, s.unread); err != nil {
			return err
		}
		files[published] = data
		for _, m := range s.sizes[file].made {
			files[madePath(published, m.width)] = m.data
		}
	}
	return nil
}

// picture is the file of [Site.clean].
func (s *Site) picture(file string) ([]byte, error) {
	clean, err := s.clean(file)
	return clean.Data, err
}

// clean is a clean copy of a picture of the bank: without what a camera or a
// drawing program wrote into it, and of a drawing nothing that could run. It is
// made once.
func (s *Site) clean(file string) (privacy.Cleaned, error) {
	s.cleaning.Lock()
	defer s.cleaning.Unlock()
	if done, ok := s.cleaned[file]; ok {
		return done, nil
	}
	if s.Options.BankFiles == nil {
		return privacy.Cleaned{}, fs.ErrNotExist
	}
	data, err := fs.ReadFile(s.Options.BankFiles, file)
	if err != nil {
		s.unread = cmp.Or(s.unread, err) // a build must not go on as if there were no picture
		return privacy.Cleaned{}, err
	}
	clean, _, err := s.Bank.Privacy().Clean(file, data)
	if err != nil {
		return privacy.Cleaned{}, err
	}
	if s.cleaned == nil {
		s.cleaned = map[string]privacy.Cleaned{}
	}
	s.cleaned[file] = clean
	return clean, nil
}
