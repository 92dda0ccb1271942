package rs274

import (
	"math"
	"strings"
)

// A word is a letter with its number.
type word struct {
	letter byte
	value  float64
	column int
	text   string
}

// maxText is the longest line the standard takes (§3.3).
const maxText = 256

// words splits a line. Comments are dropped, spaces do not matter, letters may
// be small (§3.3).
func words(line string, n int, form CommentForm) ([]word, error) {
	var out []word
	if len(line) > maxText {
		return nil, &SyntaxError{n, maxText + 1, "", "at most 256 characters in a line", ErrSyntax}
	}
	for i := 0; i < len(line); {
		c := line[i]
		switch {
		case c == ' ' || c == '\t' || c == '\r':
			i++
		case c == ';' && form == Semicolon:
			return out, nil
		case c == '(' && form == Parentheses:
			end, err := comment(line, i, n)
			if err != nil {
				return nil, err
			}
			i = end
		case c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z':
			w, end, err := readWord(line, i, n)
			if err != nil {
				return nil, err
			}
			out = append(out, w)
			i = end
		default:
			return nil, &SyntaxError{n, i + 1, line[i : i+1], "a letter, or a comment of the dialect", ErrSyntax}
		}
	}
	return out, nil
}

// comment returns where the comment that opens at i ends.
func comment(line string, i, n int) (int, error) {
	for j := i + 1; j < len(line); j++ {
		switch line[j] {
		case ')':
			return j + 1, nil
		case '(':
			return 0, &SyntaxError{n, j + 1, "(", "comments that are not nested", ErrSyntax}
		}
	}
	return 0, &SyntaxError{n, i + 1, "(", "a comment that is closed in its line", ErrSyntax}
}

func readWord(line string, i, n int) (word, int, error) {
	j := i + 1
	for j < len(line) && strings.IndexByte("+-.0123456789 \t", line[j]) >= 0 {
		j++
	}
	text := strings.NewReplacer(" ", "", "\t", "").Replace(line[i:j])
	v, _, ok := number(text[1:])
	if !ok {
		return word{}, 0, &SyntaxError{n, i + 1, text, "a letter followed by a number, without exponent or parameter", ErrSyntax}
	}
	return word{strings.ToUpper(text[:1])[0], v, i + 1, text}, j, nil
}

// number reads an optional sign, digits and at most one point, as a fixed
// count of digits so that the same text gives the same bits everywhere.
func number(s string) (v float64, decimals int, ok bool) {
	sign := 1.0
	if s != "" && (s[0] == '-' || s[0] == '+') {
		if s[0] == '-' {
			sign = -1
		}
		s = s[1:]
	}
	digits, point := 0, false
	for i := range len(s) {
		switch c := s[i]; {
		case c == '.' && !point:
			point = true
		case c >= '0' && c <= '9' && digits < 15:
			// Below 2^53 the digits are exact, and the division rounds once.
			v = v*10 + float64(c-'0')
			digits++
			if point {
				decimals++
			}
		default:
			return 0, 0, false
		}
	}
	return sign * v / math.Pow10(decimals), decimals, digits > 0
}
