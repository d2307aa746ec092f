/** The demo: an invented studio, its town and its scouting shots. */
@NullMarked
package org.lightledger.demo;

import org.jspecify.annotations.NullMarked;
