/** A short tone, made on the spot: there is no sound file to load. Browsers let it ring only once the maker has tapped. */
let audio: AudioContext | null = null;

export function wakeBell(): void {
  try {
    audio ??= new AudioContext();
    void audio.resume();
  } catch {
    audio = null;
  }
}

export function ring(): void {
  if (audio === null || audio.state !== 'running') return;
  for (const [i, hertz] of [660, 880, 660].entries()) {
    const [tone, loudness] = [audio.createOscillator(), audio.createGain()];
    const at = audio.currentTime + 0.28 * i;
    tone.frequency.value = hertz;
    loudness.gain.setValueAtTime(0.0001, at);
    loudness.gain.exponentialRampToValueAtTime(0.25, at + 0.02);
    loudness.gain.exponentialRampToValueAtTime(0.0001, at + 0.25);
    tone.connect(loudness).connect(audio.destination);
    tone.start(at);
    tone.stop(at + 0.27);
  }
}
