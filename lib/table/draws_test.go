package table_test

import _ "ohmwright/lib/internal/expect" // the gate draws the same cases
