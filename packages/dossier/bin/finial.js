#!/usr/bin/env node
// Not in dist/, so that package managers can link the command before the first build.
import '../dist/finial.js';
