@NullMarked
package org.lightledger.access;

import org.jspecify.annotations.NullMarked;
