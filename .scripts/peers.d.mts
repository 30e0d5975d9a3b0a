export type PeerName = 'numpy' | 'g++' | 'survival';

export function ensurePeer(name: PeerName): Promise<string | undefined>;
export function peerPackages(name: PeerName): string;
