// Opens the studio on the page.
import { mount } from "svelte";
import "./app.css";
import App from "./App.svelte";

const place = document.getElementById("studio");
if (place) mount(App, { target: place });
