throw new Error('this worker cannot be loaded');
