package builder

import "caseleaf/content"

// releasedOnly returns the bank without the cases that are not released, and
// their ids. With all set, they stay in and are still named.
func releasedOnly(bank *content.Bank, all bool) (*content.Bank, []string) {
	var heldBack []string
	for _, c := range bank.Cases {
		if !c.Released() {
			heldBack = append(heldBack, c.ID.Value)
		}
	}
	if all || len(heldBack) == 0 {
		return bank, heldBack
	}
	return bank.Keep(func(c *content.Case) bool { return c.Released() }), heldBack
}
