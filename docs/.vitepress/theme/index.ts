import type { Theme } from 'vitepress';
import DefaultTheme from 'vitepress/theme-without-fonts';
import Layout from './Layout.vue';
import Picture from './Picture.vue';
import './style.css';

export default {
  extends: DefaultTheme,
  Layout,
  enhanceApp({ app }) {
    app.component('Picture', Picture);
  },
} satisfies Theme;
