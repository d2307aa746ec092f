/** Tests of the web interface: over HTTP, and in a real browser. */
@NullMarked
package org.lightledger.web;

import org.jspecify.annotations.NullMarked;
