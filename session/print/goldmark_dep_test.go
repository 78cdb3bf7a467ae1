package print

import _ "github.com/yuin/goldmark"
